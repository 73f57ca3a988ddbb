namespace Rollwright.Web.State.Jobs;

/// <summary>
/// The work on one bench, away from the page's own thread and one piece after the other: an arrangement answers one thread at a
/// time. What is heavy comes here when it has had its turn among everybody's (<see cref="JobLine"/>): nothing waits here
/// for other people's work.
/// </summary>
public sealed class WorkLine
{
    private readonly Lock gate = new();
    private Task last = Task.CompletedTask;

    public Task<T> Run<T>(Func<T> work) => Run(() => Task.Run(work));

    public Task<T> Run<T>(Func<Task<T>> work)
    {
        lock (gate)
        {
            // What failed before is the affair of whoever asked for it.
            var mine = last.ContinueWith(
                    _ => work(),
                    CancellationToken.None,
                    TaskContinuationOptions.None,
                    TaskScheduler.Default
                )
                .Unwrap();
            last = mine;
            return mine;
        }
    }
}
