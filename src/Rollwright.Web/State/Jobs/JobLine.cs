using System.Collections.Immutable;

namespace Rollwright.Web.State.Jobs;

/// <summary>
/// The heavy work of the whole server: a few jobs at a time, the others in one line, in which people take turns. A page's own
/// small work is never in it.
/// </summary>
/// <remarks>
/// Turns are rounds, as in fair queuing: a job belongs to the round after its person's job before, and earlier rounds go first. So
/// whoever asks for many things waits for themselves, and whoever comes with one does not.
/// </remarks>
public sealed class JobLine(JobBounds? bounds = null)
{
    private readonly JobBounds bounds = bounds ?? JobBounds.Usual;
    private readonly Lock gate = new();

    // In the order in which they begin.
    private readonly List<Job> waiting = [];
    private readonly List<Job> running = [];
    private long round;

    /// <summary>A job came, began, or is gone; called on any thread.</summary>
    public event EventHandler? Changed;

    /// <summary>A person's jobs in the order of the line, each with how many jobs must end before it begins; 0 where it is under way.</summary>
    public ImmutableArray<(Job Job, int Before)> Of(string person)
    {
        lock (gate)
            return
            [
                .. running
                    .Concat(waiting)
                    .Where(job => job.Person == person && !job.IsStopped)
                    .Select(job => (job, Before(job))),
            ];
    }

    /// <summary>Waits for a turn, and works.</summary>
    /// <param name="kind">What it is.</param>
    /// <param name="person">Whose it is.</param>
    /// <param name="size">In the kind's unit.</param>
    /// <param name="work">Does it, away from the caller's thread; told when nobody wants it any more or its time is over.</param>
    /// <param name="stop">Nobody wants it any more.</param>
    /// <exception cref="JobException">It is too large, the line is full, or it took too long.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public async Task<T> Run<T>(
        JobKind kind,
        string person,
        long size,
        Func<CancellationToken, Task<T>> work,
        CancellationToken stop = default
    )
    {
        kind.Bound(size);
        stop.ThrowIfCancellationRequested();
        var job = Enter(kind, person);
        await using var unwanted = stop.Register(job.Stop);
        try
        {
            await job.Turn();
        }
        catch (OperationCanceledException)
        {
            Leave(job);
            throw;
        }
        var under = Work(job, work);
        try
        {
            // Whoever asked has their answer at the time's end; the place is free when the work is really over.
            return await under.WaitAsync(job.Stopped);
        }
        catch (OperationCanceledException) when (job.TookTooLong)
        {
            throw new JobException($"{kind.Words} took longer than {kind.Time.TotalSeconds:0} seconds", kind.Remedy);
        }
    }

    private async Task<T> Work<T>(Job job, Func<CancellationToken, Task<T>> work)
    {
        try
        {
            return await work(job.Stopped);
        }
        finally
        {
            Leave(job);
        }
    }

    private Job Enter(JobKind kind, string person)
    {
        Job job;
        lock (gate)
        {
            var own = waiting.Count(other => other.Person == person);
            if (own >= bounds.Person)
                throw new JobException(
                    $"{own} jobs of yours wait already",
                    "wait until one is done, or stop one",
                    isForNow: true
                );
            if (waiting.Count >= bounds.Line)
                throw new JobException(
                    $"{waiting.Count} jobs wait already, and the server takes no more just now",
                    "nothing is lost, try again in a minute",
                    isForNow: true
                );
            var before = running.Concat(waiting).Where(other => other.Person == person).Select(other => other.Round);
            job = new(kind, person, Math.Max(round, before.DefaultIfEmpty(-1).Max() + 1));
            var behind = waiting.FindIndex(other => other.Round > job.Round);
            waiting.Insert(behind < 0 ? waiting.Count : behind, job);
            BeginWhatMay();
        }
        Changed?.Invoke(this, EventArgs.Empty);
        return job;
    }

    private void Leave(Job job)
    {
        job.Dispose();
        lock (gate)
        {
            if (!running.Remove(job))
                waiting.Remove(job);
            BeginWhatMay();
        }
        Changed?.Invoke(this, EventArgs.Empty);
    }

    private void BeginWhatMay()
    {
        while (waiting.Find(job => HasPlace(job.Kind)) is { } next)
        {
            waiting.Remove(next);
            running.Add(next);
            round = Math.Max(round, next.Round);
            next.Begin();
        }
    }

    // Short jobs may stand in every place, and in one more: they pass long ones by.
    private bool HasPlace(JobKind kind) =>
        running.Count <= bounds.Places && (!kind.IsLong || running.Count(job => job.Kind.IsLong) < bounds.Places);

    private int Before(Job job) =>
        job.HasBegun
            ? 0
            : waiting.TakeWhile(other => other != job).Count(other => other.Kind.IsLong == job.Kind.IsLong) + 1;
}
