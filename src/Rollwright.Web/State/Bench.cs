using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Formats.Abc;
using Rollwright.Library;
using Rollwright.Music.Tunes;
using Rollwright.Sound.Browser;
using Rollwright.Web.State.Jobs;
using Rollwright.Web.State.Licks;
using Rollwright.Web.Words;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Web.State;

/// <summary>What lies on one person's bench: the text, which of its tunes, the wishes, and the turns the break has taken.</summary>
public sealed partial class Bench
{
    private readonly Shelf shelf;
    private readonly OwnJobs jobs;
    private readonly WorkLine line = new();

    public Bench(Shelf shelf, Keeping? keeping = null, LickChoice? licks = null, OwnJobs? jobs = null)
    {
        (this.shelf, this.jobs) = (shelf, jobs ?? new());
        Licks = licks ?? new(new VisitLicks());
        Keeping = keeping ?? new(null);
        Keeping.Changed += (_, _) => Tell();
        Inquiry = new(line, Licks, this.jobs);
        Inquiry.Changed += (_, _) => Tell();
    }

    /// <summary>Keeps what lies here.</summary>
    public Keeping Keeping { get; }

    /// <summary>The licks that are offered.</summary>
    public LickChoice Licks { get; }

    public string FileName { get; private set; } = "";

    public string Text { get; private set; } = "";

    /// <summary>The tunes read from the text; empty where it holds none.</summary>
    public ImmutableArray<Tune> Tunes { get; private set; } = [];

    /// <summary>Index of the tune that is on the bench.</summary>
    public int Chosen { get; private set; }

    public Wishes Wishes { get; private set; } = new();

    /// <summary>The turns of this tune; null before its first.</summary>
    public Turns? Turns { get; private set; }

    /// <summary>What is shown; null where nothing could be made, and then the problems say why.</summary>
    public Turn? Now { get; private set; }

    /// <summary>How the break is looked at.</summary>
    public BreakView View { get; private set; }

    /// <summary>What is asked about that which is shown.</summary>
    public Inquiry Inquiry { get; }

    /// <summary>What the text has to answer for.</summary>
    public ImmutableArray<Problem> TextProblems { get; private set; } = [];

    /// <summary>What the wishes have to answer for.</summary>
    public ImmutableArray<Problem> WishProblems { get; private set; } = [];

    /// <summary>Why the last change was refused, and where it was asked; null where it was not.</summary>
    public (AskedAt Where, Problem What)? Refusal { get; private set; }

    /// <summary>A break is being made; what is shown is the one before it.</summary>
    public bool IsMaking { get; private set; }

    /// <summary>Something here is not as it was; called on any thread.</summary>
    public event EventHandler? Changed;

    /// <summary>Puts a text on the bench and makes a break of its first tune.</summary>
    public Task Put(string fileName, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return Put(fileName, text.Length, () => (text, AbcReader.Read(text, fileName)));
    }

    /// <summary>The same for a file's bytes, in whichever of the encodings of ABC files.</summary>
    public Task Put(string fileName, byte[] bytes)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        return Put(fileName, bytes.Length, () => (AbcText.Decode(bytes) ?? "", AbcReader.Read(bytes, fileName)));
    }

    private async Task Put(string fileName, int size, Func<(string Text, AbcReading Reading)> read)
    {
        var (mine, stop) = AskAnew();
        IsMaking = true;
        Tell();
        try
        {
            var (text, reading) = await jobs.Run(JobKind.Reading, size, _ => read(), stop);
            if (mine != asked)
                return;
            (FileName, Text) = (fileName, text);
            (Tunes, TextProblems) = TurnMaker.Read(reading);
        }
        catch (Exception no) when (no is JobException or OperationCanceledException)
        {
            if (mine != asked)
                return;
            (TextProblems, IsMaking) = ([Problem.Refusal(WhyNot(no), fileName)], false);
            Tell();
            return;
        }
        await Choose(0);
    }

    /// <summary>Says why a file could not be put on the bench; what lay there stays.</summary>
    public void Refuse(string fileName, string what, string remedy)
    {
        TextProblems = [new(null, null, $"{fileName}: {what}", remedy, true)];
        Tell();
    }

    public Task Choose(int tune)
    {
        Chosen = Math.Clamp(tune, 0, Math.Max(0, Tunes.Length - 1));
        Turns = null;
        Keeping.Begin();
        return Wish(Wishes);
    }

    /// <summary>Arranges the tune as wished.</summary>
    public async Task Wish(Wishes wishes)
    {
        Wishes = wishes;
        WishProblems = [];
        if (Tunes.IsEmpty)
        {
            AskAnew();
            Show(null);
            return;
        }
        if (Turns is { } turns && turns.Now.Wishes == wishes)
        {
            Go(turns.At);
            return;
        }
        var tune = Tunes[Chosen];
        var before = Turns?.Now;
        var place = $"{tune.Title}: {wishes.Words}";
        var (turn, problem) = await Make(
            () => TurnMaker.Arrange(tune, wishes, before, Licks.Own, shelf),
            place,
            tune.Bars.Length
        );
        if (turn is null && problem is null)
            return;
        if (problem is { IsError: false } && Turns is { } stays)
        {
            // It was not done, rather than it cannot be: what was shown is shown on.
            (Wishes, WishProblems, IsMaking) = (stays.Now.Wishes, [problem], false);
            Tell();
            return;
        }
        if (turn is not null)
            Turns = Turns?.With(turn) ?? Turns.Start(turn);
        else
            WishProblems = [problem! with { Line = TuneLine.Of(Text, tune), Column = 1 }];
        Show(turn);
    }

    /// <summary>Changes what is shown; where that cannot be, it stays, and <see cref="Refusal"/> says why.</summary>
    /// <param name="where">Where the person asked.</param>
    /// <param name="place">The place of the tune, in words.</param>
    /// <param name="words">What is asked there.</param>
    /// <param name="change">The change.</param>
    public async Task Change(AskedAt where, string place, string words, Func<Arrangement, Arrangement> change)
    {
        if (Now is not { } before)
            return;
        Refusal = null;
        // Other wishes that are not met yet are taken back.
        Wishes = before.Wishes;
        var said = place.Length == 0 ? words : $"{place}: {words}";
        var (turn, problem) = await Make(
            () => TurnMaker.Change(before, said, made => change(made.Offering(Licks.Own)), shelf),
            place
        );
        if (problem is not null)
        {
            Refusal = (where, problem);
            IsMaking = false;
            Tell();
        }
        else if (turn is not null)
        {
            Turns = Turns!.With(turn);
            Show(turn);
        }
    }

    /// <summary>Keeps something from now on.</summary>
    public Task Keep(AskedAt where, params ImmutableArray<Lock> locks)
    {
        if (Now is not { } now || locks.IsEmpty)
            return Task.CompletedTask;
        var grid = now.Arrangement.Grid;
        var place = PlaceWords.Of(grid, locks.Min(kept => kept.First), locks.Max(kept => kept.Last));
        return Change(where, place, locks[0].Words, made => made.With(locks));
    }

    public void Look(BreakView view)
    {
        View = view;
        Tell();
    }

    /// <summary>The lick that is heard in its place just now; null for none.</summary>
    public LickPlace? Heard { get; private set; }

    /// <summary>A lick as it would sound where it fits, as the player's score; null where hands cannot do it, which is told.</summary>
    public async Task<string?> Hear(LickPlace place)
    {
        if (Now is not { } now)
            return null;
        Refusal = null;
        var (score, problem) = await line.Run<(string?, Problem?)>(() =>
        {
            try
            {
                return (PlayerScore.WriteText(LickTrial.Hear(now.Arrangement.Offering(Licks.Own), place)), null);
            }
            catch (ArrangeException no)
            {
                return (null, Problem.Refusal(no.Message, place.Lick.Name));
            }
        });
        Heard = score is null ? null : place;
        if (problem is not null)
            Refusal = (AskedAt.Spots, problem);
        Tell();
        return score;
    }

    /// <summary>It was heard to its end, or broken off.</summary>
    public void HeardOut()
    {
        Heard = null;
        Tell();
    }

    /// <summary>What was copied last, step by step; empty for nothing.</summary>
    public ImmutableArray<PathStep> Copied { get; private set; } = [];

    /// <summary>The edit that was refused last, while its refusal is shown; null for none.</summary>
    public Edit? Refused { get; private set; }

    /// <summary>Changes what sounds by hand; where hands cannot do it, what is shown stays, and the refusal says why.</summary>
    public async Task Make(Edit edit, bool withRoom = false)
    {
        ArgumentNullException.ThrowIfNull(edit);
        if (Now is not { TakesChanges: true } now)
            return;
        Refused = null;
        var place = PlaceWords.Of(now.Arrangement.Grid, edit.First, edit.First + edit.Wanted.Length - 1);
        await Change(AskedAt.Step, place, edit.Words, withRoom ? edit.MakeWithRoom : edit.Make);
        if (Refusal is (AskedAt.Step, _))
        {
            Refused = edit;
            Tell();
        }
    }

    /// <summary>Remembers what sounds from one step to another, to be put in elsewhere.</summary>
    public void Copy(int first, int last)
    {
        if (Now is not { } now)
            return;
        Copied = [.. Enumerable.Range(first, last - first + 1).Select(now.Arrangement.PathAt)];
        Tell();
    }

    /// <summary>Goes to one of the turns, back or on.</summary>
    public void Go(int turn)
    {
        if (Turns is not { } turns)
            return;
        AskAnew();
        Turns = turns.Go(turn);
        Wishes = Turns.Now.Wishes;
        WishProblems = [];
        Show(Turns.Now);
    }

    private void Show(Turn? turn)
    {
        if (Now?.Break != turn?.Break)
            Versions = null;
        // First, so that the page at no moment shows this turn beside the word that the one before is kept.
        if (turn is not null && Chosen < Tunes.Length)
            Keeping.Keep(turn, Tunes[Chosen]);
        var before = Now;
        Now = turn;
        Refusal = null;
        IsMaking = false;
        // Behind whatever is still asked about it.
        if (before is not null && before != turn)
        {
            before.Drawing.Rest();
            _ = line.Run(() =>
            {
                before.Rest(Now);
                return true;
            });
        }
        Inquiry.About(turn);
        Tell();
    }

    private void Tell() => Changed?.Invoke(this, EventArgs.Empty);
}

/// <summary>Where on the page a change was asked for; a refusal is told there.</summary>
public enum AskedAt
{
    Step,
    Spots,
    Locks,
    Versions,
}
