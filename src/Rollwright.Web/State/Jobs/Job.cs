namespace Rollwright.Web.State.Jobs;

/// <summary>A heavy job of somebody's, waiting or under way.</summary>
public sealed class Job : IDisposable
{
    private readonly CancellationTokenSource stop = new();
    private volatile bool isUnwanted;

    // Whoever waits goes on by a thread of their own, never within the line's lock.
    private readonly TaskCompletionSource turn = new(TaskCreationOptions.RunContinuationsAsynchronously);

    internal Job(JobKind kind, string person, long round)
    {
        (Kind, Person, Round) = (kind, person, round);
        Stopped = stop.Token;
    }

    public JobKind Kind { get; }

    /// <summary>Whose it is.</summary>
    public string Person { get; }

    /// <summary>Jobs are begun by rounds: in each, everybody who waits has one.</summary>
    internal long Round { get; }

    internal bool HasBegun => turn.Task.IsCompleted;

    internal CancellationToken Stopped { get; }

    internal bool IsStopped => Stopped.IsCancellationRequested;

    /// <summary>It was broken off, and not because nobody wanted it.</summary>
    internal bool TookTooLong => IsStopped && !isUnwanted;

    /// <summary>Nobody wants it any more: it leaves the line, or ends as soon as it looks up.</summary>
    public void Stop()
    {
        isUnwanted = true;
        try
        {
            stop.Cancel();
        }
        catch (ObjectDisposedException)
        {
            // It is over.
        }
    }

    /// <summary>It is over.</summary>
    public void Dispose() => stop.Dispose();

    internal void Begin() => turn.TrySetResult();

    /// <exception cref="OperationCanceledException">It was stopped before.</exception>
    internal async Task Turn()
    {
        await turn.Task.WaitAsync(Stopped);
        stop.CancelAfter(Kind.Time);
    }
}
