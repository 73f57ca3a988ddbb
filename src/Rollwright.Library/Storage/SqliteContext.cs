using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Rollwright.Library.Storage;

/// <summary>One file.</summary>
internal sealed class SqliteContext(DbContextOptions<SqliteContext> options, Scope scope)
    : LibraryContext(options, scope)
{
    /// <param name="file">Path of the file.</param>
    /// <param name="mayBeNew">
    /// Whether it is made where there is none: only at opening. A file that was taken away later must not come back empty.
    /// </param>
    public static DbContextOptions<SqliteContext> Options(string file, bool mayBeNew) =>
        new DbContextOptionsBuilder<SqliteContext>()
            // Whoever waits longer than this for another writer is told so. Without a pool a closed library lets go of its file.
            .UseSqlite(
                $"Data Source={file};Mode={(mayBeNew ? "ReadWriteCreate" : "ReadWrite")};Default Timeout=5;Pooling=False"
            )
            .AddInterceptors(new Durable())
            .Options;

    public override IQueryable<TuneRow> Matching(IReadOnlyList<string> words, int most)
    {
        var query = string.Join(' ', words.Select(word => $"\"{word.Replace("\"", "", StringComparison.Ordinal)}\"*"));
        // The owner is asked for here: the filter of the context would come after the limit.
        return Tunes
            .FromSql(
                $"""
                SELECT t.* FROM "TuneSearch" s JOIN "Tunes" t ON t."Number" = s.rowid
                WHERE t."Owner" = {Owner} AND "TuneSearch" MATCH {query} ORDER BY rank, t."Title" LIMIT {most}
                """
            )
            .IgnoreQueryFilters();
    }

    // SQLite has no type for moments that it can sort: they are kept in ticks, in universal time.
    protected override void ConfigureConventions(ModelConfigurationBuilder conventions) =>
        conventions.Properties<DateTimeOffset>().HaveConversion<InTicks>();

    private sealed class InTicks()
        : ValueConverter<DateTimeOffset, long>(moment => moment.UtcTicks, ticks => new(ticks, TimeSpan.Zero));

    /// <summary>What is acknowledged is on the disk, also when the power fails; readers do not wait for writers.</summary>
    private sealed class Durable : DbConnectionInterceptor
    {
        private const string Pragmas = "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;";

        public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
        {
            using var command = connection.CreateCommand();
            command.CommandText = Pragmas;
            command.ExecuteNonQuery();
        }

        public override async Task ConnectionOpenedAsync(
            DbConnection connection,
            ConnectionEndEventData eventData,
            CancellationToken cancellationToken = default
        )
        {
            await using var command = connection.CreateCommand();
            command.CommandText = Pragmas;
            await command.ExecuteNonQueryAsync(cancellationToken);
        }
    }

    /// <summary>For the tool that writes migrations.</summary>
    internal sealed class Factory : IDesignTimeDbContextFactory<SqliteContext>
    {
        public SqliteContext CreateDbContext(string[] args) => new(Options("design.db", mayBeNew: true), default);
    }
}
