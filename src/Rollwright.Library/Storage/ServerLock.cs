using Microsoft.EntityFrameworkCore;

namespace Rollwright.Library.Storage;

/// <summary>
/// One program at a time makes tables on a server: two that start at once would both find none. Held by the session, so that it is
/// gone with a program that is killed.
/// </summary>
public sealed class ServerLock : IAsyncDisposable
{
    // Any number, the same for ever.
    private const long Key = 5_402_600_111;

    private readonly DbContext context;

    private ServerLock(DbContext context) => this.context = context;

    /// <param name="context">Of a PostgreSQL database that is there; its connection stays open meanwhile.</param>
    public static async Task<ServerLock> Take(DbContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        await context.Database.OpenConnectionAsync();
        await context.Database.ExecuteSqlAsync($"SELECT pg_advisory_lock({Key})");
        return new(context);
    }

    public async ValueTask DisposeAsync()
    {
        await context.Database.ExecuteSqlAsync($"SELECT pg_advisory_unlock({Key})");
        await context.Database.CloseConnectionAsync();
    }
}
