using System.Collections.Immutable;

namespace Rollwright.Web.State.Jobs;

/// <summary>
/// One person's way into the line of heavy work, from one page or request: when that is gone, nobody waits for what it asked.
/// </summary>
public sealed class OwnJobs : IDisposable
{
    private readonly JobLine line;
    private readonly Func<string> person;
    private readonly CancellationTokenSource leaving = new();
    private readonly CancellationToken gone;

    /// <param name="line">The server's; null for one of its own.</param>
    /// <param name="person">Says whose page it is; null where there is one person alone.</param>
    public OwnJobs(JobLine? line = null, Func<string>? person = null)
    {
        (this.line, this.person) = (line ?? new(), person ?? (() => ""));
        gone = leaving.Token;
    }

    /// <summary>Some job of anybody's came, began or is gone; called on any thread.</summary>
    public event EventHandler? Changed
    {
        add => line.Changed += value;
        remove => line.Changed -= value;
    }

    /// <summary>This person's jobs, from whichever page, each with how many jobs must end before it begins; 0 where it is under way.</summary>
    public ImmutableArray<(Job Job, int Before)> All => line.Of(person());

    /// <summary>Does heavy work in its turn, on a thread of its own; what is small for its kind is done at once.</summary>
    /// <param name="kind">What it is.</param>
    /// <param name="size">In the kind's unit.</param>
    /// <param name="work">The work; told when nobody wants it any more or its time is over.</param>
    /// <param name="stop">Nobody wants it any more.</param>
    /// <exception cref="JobException">It is too large, the line is full, or it took too long.</exception>
    /// <exception cref="OperationCanceledException">It was stopped, or the page is gone.</exception>
    public Task<T> Run<T>(JobKind kind, long size, Func<CancellationToken, T> work, CancellationToken stop = default) =>
        Take(kind, size, ended => Long(() => work(ended)), stop);

    /// <summary>The same for work on a bench, which comes behind what is under way there.</summary>
    public Task<T> Run<T>(
        JobKind kind,
        long size,
        WorkLine bench,
        Func<CancellationToken, T> work,
        CancellationToken stop = default
    )
    {
        ArgumentNullException.ThrowIfNull(bench);
        return Take(kind, size, ended => bench.Run(() => Long(() => work(ended))), stop);
    }

    public void Dispose()
    {
        leaving.Cancel();
        leaving.Dispose();
    }

    private async Task<T> Take<T>(
        JobKind kind,
        long size,
        Func<CancellationToken, Task<T>> work,
        CancellationToken stop
    )
    {
        ArgumentNullException.ThrowIfNull(kind);
        if (size <= kind.AtOnce)
            return await work(stop);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(stop, gone);
        return await line.Run(kind, person(), size, work, either.Token);
    }

    // The pool's threads are for pages.
    private static Task<T> Long<T>(Func<T> work) =>
        Task.Factory.StartNew(work, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
}
