using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.Web.Words;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Web.State;

/// <summary>The one place where the page meets the rooms that read, arrange and draw.</summary>
internal static class TurnMaker
{
    /// <summary>The tunes of a text, and what it has to answer for.</summary>
    public static (ImmutableArray<Tune> Tunes, ImmutableArray<Problem> Problems) Read(AbcReading reading) =>
        (
            reading.Tunes,
            [
                .. reading
                    .Messages.OrderBy(message => message.Severity != Severity.Error)
                    .Select(message => new Problem(
                        message.Line,
                        message.Column,
                        message.What,
                        message.Remedy,
                        message.Severity == Severity.Error
                    )),
            ]
        );

    /// <summary>The tune as wished.</summary>
    /// <param name="tune">The tune.</param>
    /// <param name="wishes">What is asked for.</param>
    /// <param name="before">What is shown now, of the same tune; null for nothing. Of its locks stays what still makes sense.</param>
    /// <param name="own">Licks that are offered besides those of the program.</param>
    /// <param name="shelf">Where the browser finds what was made.</param>
    /// <exception cref="ArrangeException">The wishes or the tune stand in the way.</exception>
    public static Turn Arrange(Tune tune, Wishes wishes, Turn? before, ImmutableArray<Lick> own, Shelf shelf)
    {
        var keeps = before is not null && before.Wishes with { Instead = wishes.Instead } == wishes;
        var words = before is null ? "the tune arranged" : wishes.WordsSince(before.Wishes);
        var made = keeps ? before!.Break : Arranger.Arrange(tune, OptionsOf(tune, wishes)).Offering(own);
        ImmutableArray<(Lock Lock, string Why)> letGo = [];
        if (!keeps && before is not null)
            (made, letGo) = LockCarrying.Carry(before.Break.Locks, before.Break, made);
        var (shown, differs) = wishes.Instead?.MakeOf(made, wishes.Level) ?? (made, null);
        if (before is null)
            return Of(words, wishes, made, shown, differs, shelf);
        // What was kept of a version, or of a part behind someone, and not of the break that it was made of.
        ImmutableArray<(Lock Lock, string Why)> more = [];
        if (before.Wishes.Instead is not null)
        {
            ImmutableArray<Lock> besides = [.. before.Arrangement.Locks.Except(before.Break.Locks)];
            more = [.. besides.Select(kept => (kept, "something else is played"))];
            if (before.Wishes.Instead == wishes.Instead)
                (shown, more) = LockCarrying.Carry(besides, before.Arrangement, shown);
        }
        return Of(words, wishes, made, shown, differs, shelf) with
        {
            LetGo = LetGoWords.Of((before.Break.Grid, letGo), (before.Arrangement.Grid, more)),
        };
    }

    /// <summary>A piece of work as it was kept. Locks that have no place any more are let go, and named.</summary>
    /// <exception cref="ArrangeException">The wishes or the tune stand in the way.</exception>
    public static Turn Resume(Tune tune, Work work, string words, ImmutableArray<Lick> own, Shelf shelf)
    {
        var (made, left) = Relock(Arranger.Arrange(tune, OptionsOf(tune, work.Wishes)).Offering(own), work.Locks);
        var (shown, differs) = work.Wishes.Instead?.MakeOf(made, work.Level) ?? (made, null);
        if (work.Wishes.Instead is not null)
        {
            (shown, var more) = Relock(shown, work.OwnLocks);
            left += more;
        }
        return Of(words, work.Wishes, made, shown, differs, shelf) with
        {
            LetGo = left == 0 ? "" : $"{left} of what was kept could not be kept again.",
        };
    }

    private static (Arrangement Made, int Left) Relock(Arrangement made, ImmutableArray<string> texts)
    {
        var locks = Work.LocksIn(made, texts);
        var (kept, left) = made.WithWhatCanBe(locks);
        return (kept, texts.Length - locks.Length + left.Length);
    }

    /// <summary>A change of what is shown.</summary>
    /// <exception cref="ArrangeException">Hands cannot do it.</exception>
    public static Turn Change(Turn before, string words, Func<Arrangement, Arrangement> change, Shelf shelf)
    {
        var changed = change(before.Arrangement);
        var made = before.Wishes.Instead is null ? changed : before.Break;
        return Of(words, before.Wishes, made, changed, before.Differs, shelf);
    }

    private static Turn Of(
        string words,
        Wishes wishes,
        Arrangement made,
        Arrangement shown,
        double? differs,
        Shelf shelf
    )
    {
        var kept = shelf.Put(Made.Of(shown.Break));
        return new(words, wishes, made, shown, differs, kept, Drawing.Of(shown));
    }

    /// <summary>What is asked of the arranger.</summary>
    public static ArrangeOptions OptionsOf(Tune tune, Wishes wishes) =>
        new()
        {
            SoundingKey = wishes.Key is { } key ? new Key(PitchName.Parse(key)!.Value, tune.Key.Mode) : null,
            Tuning = wishes.Tuning is { } tuning ? TuningTable.Find(tuning) : null,
            Capo = wishes.Capo,
            Octave = wishes.Octave,
            Level = wishes.Level,
            Style = wishes.Style is { } style ? StyleTable.Find(style) : null,
            SecondTime = wishes.SecondTime,
        };
}
