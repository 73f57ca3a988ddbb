using Rollwright.Formats.Abc;
using Rollwright.Library;

namespace Rollwright.Web.State;

// What was kept comes back.
public sealed partial class Bench
{
    /// <summary>Puts a kept break back on the bench, as it was left.</summary>
    public async Task Resume(Guid id)
    {
        try
        {
            if (await Keeping.FetchAsync(id) is not var (kept, abc, revision))
            {
                Refuse("Your library", "this break is no longer in the library", "choose another");
                return;
            }
            var reading = AbcReader.Read(abc, kept.Title);
            if (reading.Tunes is not [var tune, ..] || Work.Read(revision.Wishes) is not { } work)
            {
                Refuse(
                    kept.Title,
                    "its tune or its wishes cannot be read",
                    "export the break, or arrange the tune anew"
                );
                return;
            }
            (FileName, Text, Chosen, Turns) = (kept.Title, abc, 0, null);
            (Tunes, TextProblems) = TurnMaker.Read(reading);
            (Wishes, WishProblems) = (work.Wishes, []);
            var (turn, problem) = await Make(
                () => TurnMaker.Resume(tune, work, revision.Words, Licks.Own, shelf),
                kept.Title,
                tune.Bars.Length
            );
            if (turn is not null)
            {
                Turns = Turns.Start(turn);
                Keeping.Resume(id, revision, turn);
            }
            else if (problem is not null)
            {
                WishProblems = [problem];
            }
            Show(turn);
        }
        catch (LibraryException fault)
        {
            Refuse(fault.Place, fault.What, fault.Remedy);
        }
    }

    /// <summary>To the turn before; where that was made before the page was opened, it comes back from the library.</summary>
    public async Task Back()
    {
        if (Turns is not { } turns)
            return;
        if (turns.HasBefore)
        {
            Go(turns.At - 1);
            return;
        }
        try
        {
            if (await Keeping.BeforeAsync(turns.Now) is not { } revision || Work.Read(revision.Wishes) is not { } work)
                return;
            var tune = Tunes[Chosen];
            var (turn, problem) = await Make(
                () => TurnMaker.Resume(tune, work, revision.Words, Licks.Own, shelf),
                revision.Words,
                tune.Bars.Length
            );
            if (turn is null)
            {
                IsMaking = IsMaking && problem is null;
                WishProblems = problem is null ? WishProblems : [problem];
                Tell();
                return;
            }
            Keeping.Know(turn, revision);
            Turns = turns.Behind(turn);
            (Wishes, WishProblems) = (turn.Wishes, []);
            Show(turn);
        }
        catch (LibraryException fault)
        {
            Refuse(fault.Place, fault.What, fault.Remedy);
        }
    }
}
