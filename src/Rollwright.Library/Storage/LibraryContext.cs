using Microsoft.EntityFrameworkCore;

namespace Rollwright.Library.Storage;

/// <summary>The tables, alike in both kinds of database.</summary>
internal abstract class LibraryContext(DbContextOptions options) : DbContext(options)
{
    public DbSet<TuneRow> Tunes => Set<TuneRow>();

    public DbSet<BreakRow> Breaks => Set<BreakRow>();

    public DbSet<RevisionRow> Revisions => Set<RevisionRow>();

    public DbSet<PracticeRow> Practice => Set<PracticeRow>();

    /// <summary>Tunes that hold all of these words, or words that begin so; the best first.</summary>
    /// <param name="words">Folded as <see cref="Folded"/> does it; at least one.</param>
    /// <param name="most">How many at most.</param>
    public abstract IQueryable<TuneRow> Matching(IReadOnlyList<string> words, int most);

    protected override void OnModelCreating(ModelBuilder model)
    {
        model.Entity<TuneRow>(tune =>
        {
            tune.HasKey(row => row.Number);
            tune.HasIndex(row => row.Id).IsUnique();
            tune.HasIndex(row => row.Fingerprint);
            tune.HasIndex(row => row.Title);
        });
        model.Entity<BreakRow>(played =>
        {
            played.HasKey(row => row.Number);
            played.HasIndex(row => row.Id).IsUnique();
            played.HasIndex(row => row.Tune);
        });
        model.Entity<RevisionRow>(revision =>
        {
            revision.HasKey(row => new { row.Break, row.Number });
            revision.HasIndex(row => row.Draft).IsUnique();
        });
        model.Entity<PracticeRow>(practice =>
            practice.HasKey(row => new
            {
                row.Break,
                row.Day,
                row.Phrase,
            })
        );
    }
}
