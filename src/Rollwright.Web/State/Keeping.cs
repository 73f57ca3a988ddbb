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
/// Keeps every turn of a bench in the library, one after the other, as it is made. What cannot be kept stays on the page and is
/// tried again; what someone else did meanwhile is shown and never written over.
/// </summary>
public sealed class Keeping(TuneLibrary? library) : IDisposable
{
    private static readonly TimeSpan Again = TimeSpan.FromSeconds(5);

    private readonly SemaphoreSlim turnstile = new(1);
    private readonly Dictionary<Turn, int> numbers = [];
    private readonly CancellationTokenSource gone = new();
    private Guid? played;
    private int current;
    private (Turn Turn, Tune Tune)? wanted;

    public KeepState State { get; private set; }

    /// <summary>Why it could not be kept; empty where it was.</summary>
    public string Why { get; private set; } = "";

    /// <summary>What the other did, of a conflict.</summary>
    public Revision? Theirs { get; private set; }

    /// <summary>The break that is kept; null before it is.</summary>
    public Guid? BreakId => played;

    /// <summary>The state is another; called on any thread.</summary>
    public event EventHandler? Changed;

    /// <summary>The breaks that are kept, the last changed first; none where there is no library or it does not answer.</summary>
    public async Task<IReadOnlyList<KeptBreak>> ListAsync(int most)
    {
        if (library is null)
            return [];
        try
        {
            return await library.BreaksAsync(most: most);
        }
        catch (LibraryException fault)
        {
            Say(KeepState.Failed, fault.Message);
            return [];
        }
    }

    /// <summary>A kept break with its tune and what is shown of it; null where it is gone.</summary>
    /// <exception cref="LibraryException">The library does not answer.</exception>
    public async Task<(KeptBreak Kept, string Abc, Revision Revision)?> FetchAsync(Guid id) =>
        library is not null
        && await library.BreakAsync(id) is { } kept
        && await library.TuneAsync(kept.Tune) is { } tune
        && await library.CurrentAsync(id) is { } revision
            ? (kept, tune.Abc, revision)
            : null;

    /// <summary>What lies on the bench from now on is a new piece, not kept yet.</summary>
    public void Begin()
    {
        (played, current, wanted, Theirs) = (null, 0, null, null);
        numbers.Clear();
        Say(KeepState.Nothing, "");
    }

    /// <summary>What lies on the bench from now on is this kept break, of which this turn was made.</summary>
    public void Resume(Guid kept, Revision revision, Turn turn)
    {
        ArgumentNullException.ThrowIfNull(revision);
        Begin();
        (played, current) = (kept, revision.Number);
        numbers[turn] = revision.Number;
        Say(KeepState.Kept, "");
    }

    /// <summary>Keeps a turn that is shown now.</summary>
    public async Task KeepAsync(Turn turn, Tune tune)
    {
        if (library is null || State == KeepState.Conflict)
            return;
        wanted = (turn, tune);
        Say(KeepState.Keeping, "");
        await turnstile.WaitAsync();
        try
        {
            // A newer turn that came meanwhile is behind this one in the line, and every turn is kept: undo finds them all.
            await Put(turn, tune);
        }
        catch (LibraryException fault)
        {
            Say(KeepState.Failed, fault.Message);
            _ = TryAgainLater();
        }
        finally
        {
            turnstile.Release();
        }
    }

    /// <summary>Tries at once what could not be kept.</summary>
    public Task TryAgain() => wanted is var (turn, tune) ? KeepAsync(turn, tune) : Task.CompletedTask;

    /// <summary>After a conflict: what is on the page comes after what the other did; theirs stays in the line.</summary>
    public Task KeepMine()
    {
        if (Theirs is not { } theirs || wanted is not var (turn, tune))
            return Task.CompletedTask;
        current = theirs.Number;
        numbers.Remove(turn);
        Theirs = null;
        Say(KeepState.Keeping, "");
        return KeepAsync(turn, tune);
    }

    public void Dispose()
    {
        gone.Cancel();
        gone.Dispose();
    }

    private async Task Put(Turn turn, Tune tune)
    {
        if (played is not { } id)
        {
            var kept = await TuneIdOf(tune);
            var begun = await library!.BeginAsync(kept, turn.Made.Break.Title, DraftOf(turn));
            (played, current) = (begun.Id, 1);
            numbers[turn] = 1;
            Say(KeepState.Kept, "");
            return;
        }
        var outcome = numbers.TryGetValue(turn, out var number)
            ? number == current
                ? null
                : await library!.GoAsync(id, current, number)
            : await library!.SaveAsync(id, current, DraftOf(turn));
        switch (outcome)
        {
            case SaveOutcome.Conflict { Theirs: var theirs }:
                Theirs = theirs;
                Say(KeepState.Conflict, $"{theirs.Words}, {theirs.At.ToLocalTime():HH:mm}");
                return;
            case SaveOutcome.Saved { Revision.Number: var saved }:
                current = saved;
                numbers[turn] = saved;
                break;
        }
        Say(KeepState.Kept, "");
    }

    // The same melody in any key is one tune of the library.
    private async Task<Guid> TuneIdOf(Tune tune)
    {
        var kept = KeptTune.Of(tune, AbcWriter.Write(tune), "workbench", [], TimeProvider.System.GetUtcNow());
        if (await library!.WithFingerprintsAsync([kept.Fingerprint]) is [var known, ..] && known.Key == kept.Key)
            return known.Id;
        await library.AddAsync([kept]);
        return kept.Id;
    }

    private static Draft DraftOf(Turn turn) =>
        new(turn.Words, Work.Of(turn).Write(), JsonWriter.Write(turn.Made.Break));

    private async Task TryAgainLater()
    {
        try
        {
            await Task.Delay(Again, gone.Token);
        }
        catch (OperationCanceledException)
        {
            return;
        }
        if (State == KeepState.Failed)
            await TryAgain();
    }

    private void Say(KeepState state, string why)
    {
        (State, Why) = (state, why);
        Changed?.Invoke(this, EventArgs.Empty);
    }
}
