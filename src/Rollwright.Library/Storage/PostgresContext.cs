using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Rollwright.Library.Storage;

/// <summary>A server, for a class.</summary>
internal sealed class PostgresContext(DbContextOptions<PostgresContext> options, Scope scope)
    : LibraryContext(options, scope)
{
    public static DbContextOptions<PostgresContext> Options(string connection) =>
        new DbContextOptionsBuilder<PostgresContext>()
            .UseNpgsql(connection)
            .AddInterceptors(new StorableText())
            .Options;

    public override IQueryable<TuneRow> Matching(IReadOnlyList<string> words, int most)
    {
        var query = string.Join(" & ", words.Select(word => $"'{word.Replace("'", "", StringComparison.Ordinal)}':*"));
        // The owner is asked for here: the filter of the context would come after the limit.
        return Tunes
            .FromSql(
                $"""
                SELECT t.* FROM "Tunes" t
                WHERE t."Owner" = {Owner} AND t."SearchVector" @@ to_tsquery('simple', {query})
                ORDER BY ts_rank(t."SearchVector", to_tsquery('simple', {query})) DESC, t."Title" LIMIT {most}
                """
            )
            .IgnoreQueryFilters();
    }

    protected override void OnModelCreating(ModelBuilder model)
    {
        base.OnModelCreating(model);
        model.Entity<RecordingRow>(recording => recording.ToTable("Recordings").HasKey(row => row.Digest));
    }

    /// <summary>For the tool that writes migrations.</summary>
    internal sealed class Factory : IDesignTimeDbContextFactory<PostgresContext>
    {
        public PostgresContext CreateDbContext(string[] args) =>
            new(Options("Host=localhost;Database=design"), default);
    }
}
