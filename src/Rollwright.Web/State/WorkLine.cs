namespace Rollwright.Web.State;

/// <summary>
/// Long work of one bench, away from the page's own thread and one piece after the other: an arrangement answers one
/// thread at a time.
/// </summary>
public sealed class WorkLine
{
    private readonly Lock gate = new();
    private Task last = Task.CompletedTask;

    public Task<T> Run<T>(Func<T> work)
    {
        lock (gate)
        {
            // What failed before is the affair of whoever asked for it.
            var mine = last.ContinueWith(
                _ => work(),
                CancellationToken.None,
                TaskContinuationOptions.None,
                TaskScheduler.Default
            );
            last = mine;
            return mine;
        }
    }
}
