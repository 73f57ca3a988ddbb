using Rollwright.Formats.Abc;
using Rollwright.Formats.Json;
using Rollwright.Library;
using Rollwright.Library.Kept;
using Rollwright.Music.Tunes;

namespace Rollwright.Web.State;

/// <summary>How it stands with the keeping of what lies on the bench.</summary>
public enum KeepState
{
    /// <summary>There is no library, or nothing on the bench.</summary>
    Nothing,

    /// <summary>On its way to the disk.</summary>
    Keeping,

    /// <summary>On the disk.</summary>
    Kept,

    /// <summary>The library refused; the work is on the page, and is tried again.</summary>
    Failed,

    /// <summary>Someone else changed the same break meanwhile; the person chooses.</summary>
    Conflict,
}

/// <summary>
/// Keeps every turn of a bench in the library, one after the other, as it is made. What cannot be kept waits here in its order
/// and is tried again until it is, whatever lies on the bench meanwhile and also when the page is gone; what someone else did
/// meanwhile is shown and never written over.
/// </summary>
/// <param name="library">Where to; null keeps nothing.</param>
/// <param name="pause">Between one try and the next; five seconds unless it is said.</param>
public sealed class Keeping(TuneLibrary? library, TimeSpan? pause = null)
{
    private readonly TimeSpan again = pause ?? TimeSpan.FromSeconds(5);
    private readonly Lock gate = new();
    private readonly Queue<Waiting> waiting = new();
    private Piece piece = new();
    private bool isRunning;
    private bool isPausing;

    public KeepState State { get; private set; }

    /// <summary>Why it could not be kept; empty where it was.</summary>
    public string Why { get; private set; } = "";

    /// <summary>What the other did, of a conflict.</summary>
    public Revision? Theirs { get; private set; }

    /// <summary>The break that is kept; null before it is.</summary>
    public Guid? BreakId => piece.Id;

    /// <summary>The state is another; called on any thread.</summary>
    public event EventHandler? Changed;

    public bool HasLibrary => library is not null;

    /// <summary>The breaks that are kept, the last changed first; none where there is no library.</summary>
    /// <exception cref="LibraryException">The library does not answer.</exception>
    public async Task<IReadOnlyList<KeptBreak>> ListAsync(int most) =>
        library is null ? [] : await library.BreaksAsync(most: most);

    /// <summary>Tunes with what is kept of them, by words of title, tag, key and text; none where there is no library.</summary>
    /// <exception cref="LibraryException">The library does not answer.</exception>
    public async Task<IReadOnlyList<FoundTune>> SearchAsync(string words, int most) =>
        library is null ? [] : await library.SearchAsync(words, most);

    /// <summary>A kept break with its tune and what is shown of it; null where it is gone.</summary>
    /// <exception cref="LibraryException">The library does not answer.</exception>
    public async Task<(KeptBreak Kept, string Abc, Revision Revision)?> FetchAsync(Guid id) =>
        library is not null
        && await library.BreakAsync(id) is { } kept
        && await library.TuneAsync(kept.Tune) is { } tune
        && await library.CurrentAsync(id) is { } revision
            ? (kept, tune.Abc, revision)
            : null;

    /// <summary>
    /// What lies on the bench from now on is a new piece, not kept yet. What waits of the one before is still kept; of a conflict
    /// that was not settled, theirs stays.
    /// </summary>
    public void Begin()
    {
        lock (gate)
        {
            if (State == KeepState.Conflict)
                waiting.Clear();
            (piece, Theirs) = (new(), null);
            if (waiting.Count == 0)
                (State, Why) = (KeepState.Nothing, "");
        }
        Tell();
    }

    /// <summary>What lies on the bench from now on is this kept break, of which this turn was made.</summary>
    public void Resume(Guid kept, Revision revision, Turn turn)
    {
        ArgumentNullException.ThrowIfNull(revision);
        ArgumentNullException.ThrowIfNull(turn);
        Begin();
        piece.Kept(kept, revision.Number, turn.Id);
        if (State == KeepState.Nothing)
            Say(KeepState.Kept, "");
    }

    /// <summary>What a turn was made of, as it was kept; null where it is the first, or was not kept.</summary>
    /// <exception cref="LibraryException">The library does not answer.</exception>
    public async Task<Revision?> BeforeAsync(Turn turn)
    {
        ArgumentNullException.ThrowIfNull(turn);
        if (library is null || piece is not { Id: { } id } of || of.NumberOf(turn.Id) is not { } number)
            return null;
        var revisions = await library.RevisionsAsync(id);
        return revisions.FirstOrDefault(one => one.Number == number)?.Parent is { } parent
            ? revisions.FirstOrDefault(one => one.Number == parent)
            : null;
    }

    /// <summary>A turn that is this revision come back.</summary>
    public void Know(Turn turn, Revision revision)
    {
        ArgumentNullException.ThrowIfNull(turn);
        ArgumentNullException.ThrowIfNull(revision);
        lock (gate)
            piece.Knows(turn.Id, revision.Number);
    }

    /// <summary>Keeps a turn that is shown now, behind those that wait.</summary>
    public void Keep(Turn turn, Tune tune)
    {
        ArgumentNullException.ThrowIfNull(turn);
        if (library is null)
            return;
        // Its text alone waits here: a turn holds the whole lattice.
        var draft = new Draft(turn.Id, turn.Words, Work.Of(turn).Write(), JsonWriter.Write(turn.Made.Break));
        lock (gate)
        {
            waiting.Enqueue(new(piece, tune, turn.Made.Break.Title, draft));
            if (State == KeepState.Conflict)
                return;
            (State, Why) = (KeepState.Keeping, "");
        }
        Tell();
        Run();
    }

    /// <summary>Tries at once what could not be kept.</summary>
    public void TryAgain() => Run();

    /// <summary>After a conflict: what is on the page comes after what the other did; theirs stays in the line.</summary>
    public void KeepMine()
    {
        lock (gate)
        {
            if (Theirs is not { } theirs)
                return;
            piece.ComesAfter(theirs);
            Theirs = null;
            (State, Why) = (KeepState.Keeping, "");
        }
        Tell();
        Run();
    }

    // All that waits, in its order, by one at a time; away from the page's own thread, for a database may let it wait.
    private void Run()
    {
        lock (gate)
        {
            if (isRunning)
                return;
            isRunning = true;
        }
        _ = Task.Run(PutAll);
    }

    private async Task PutAll()
    {
        try
        {
            while (Next() is { } next)
            {
                if (await Put(next) is SaveOutcome.Conflict { Theirs: var theirs })
                    Settle(next, theirs);
            }
            Tell();
        }
        catch (Exception fault)
        {
            // Also a fault of ours must not leave the page waiting for ever.
            lock (gate)
                isRunning = false;
            Say(
                KeepState.Failed,
                fault is LibraryException ? fault.Message : $"a fault of the program ({fault.Message})"
            );
            _ = RunLater();
        }
    }

    // Kept is said only when all of it is.
    private Waiting? Next()
    {
        lock (gate)
        {
            if (State != KeepState.Conflict)
            {
                if (waiting.TryPeek(out var next))
                    return next;
                (State, Why) = (piece.Id is null ? KeepState.Nothing : KeepState.Kept, "");
            }
            isRunning = false;
            return null;
        }
    }

    private async Task<SaveOutcome?> Put(Waiting next)
    {
        var (of, tune, title, draft) = next;
        if (of.Id is not { } id)
        {
            var begun = await library!.BeginAsync(await TuneIdOf(tune), title, draft);
            Done(next, () => of.Kept(begun.Id, 1, draft.Id));
            return null;
        }
        var outcome =
            of.NumberOf(draft.Id) is not { } number
                ? await library!.SaveAsync(id, of.Current, draft with { Id = of.DraftOf(draft.Id) })
            : number == of.Current ? null
            : await library!.GoAsync(id, of.Current, number);
        if (outcome is not SaveOutcome.Conflict)
            Done(next, () => of.Kept(id, (outcome as SaveOutcome.Saved)?.Revision.Number ?? of.Current, draft.Id));
        return outcome;
    }

    private void Done(Waiting kept, Action note)
    {
        lock (gate)
        {
            note();
            if (waiting.TryPeek(out var first) && first == kept)
                waiting.Dequeue();
        }
    }

    // Of a piece that is no longer on the bench nobody can be asked: it comes after theirs.
    private void Settle(Waiting mine, Revision theirs)
    {
        lock (gate)
        {
            if (mine.Piece != piece)
            {
                mine.Piece.ComesAfter(theirs);
                return;
            }
            Theirs = theirs;
            (State, Why) = (KeepState.Conflict, $"{theirs.Words}, {theirs.At.ToLocalTime():HH:mm}");
        }
    }

    // The same melody in the same key is one tune of the library.
    private async Task<Guid> TuneIdOf(Tune tune)
    {
        var kept = KeptTune.Of(tune, AbcWriter.Write(tune), "workbench", [], TimeProvider.System.GetUtcNow());
        var known = await library!.WithFingerprintsAsync([kept.Fingerprint]);
        if (known.FirstOrDefault(one => one.Key == kept.Key) is { } same)
            return same.Id;
        await library.AddAsync([kept]);
        return kept.Id;
    }

    private async Task RunLater()
    {
        lock (gate)
        {
            if (isPausing)
                return;
            isPausing = true;
        }
        await Task.Delay(again);
        lock (gate)
            isPausing = false;
        Run();
    }

    private void Say(KeepState state, string why)
    {
        lock (gate)
            (State, Why) = (state, why);
        Tell();
    }

    private void Tell() => Changed?.Invoke(this, EventArgs.Empty);

    private sealed record Waiting(Piece Piece, Tune Tune, string Title, Draft Draft);

    /// <summary>One break of the library, and which of its revisions the turns became.</summary>
    private sealed class Piece
    {
        private readonly Dictionary<Guid, int> numbers = [];
        private readonly Dictionary<Guid, Guid> anew = [];

        public Guid? Id { get; private set; }

        public int Current { get; private set; }

        public int? NumberOf(Guid turn) => numbers.TryGetValue(turn, out var number) ? number : null;

        public Guid DraftOf(Guid turn) => anew.GetValueOrDefault(turn, turn);

        public void Kept(Guid id, int number, Guid turn)
        {
            (Id, Current) = (id, number);
            numbers[turn] = number;
        }

        public void Knows(Guid turn, int number) => numbers[turn] = number;

        /// <summary>What is kept from now on stands on theirs: also what was kept before is a new draft then.</summary>
        public void ComesAfter(Revision theirs)
        {
            Current = theirs.Number;
            foreach (var turn in numbers.Keys)
                anew[turn] = Guid.NewGuid();
            numbers.Clear();
        }
    }
}
