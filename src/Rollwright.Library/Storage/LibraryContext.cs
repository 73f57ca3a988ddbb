using Microsoft.EntityFrameworkCore;

namespace Rollwright.Library.Storage;

/// <summary>The tables, alike in both kinds of database.</summary>
internal abstract class LibraryContext(DbContextOptions options) : DbContext(options)
{
    public DbSet<TuneRow> Tunes => Set<TuneRow>();

    public DbSet<BreakRow> Breaks => Set<BreakRow>();

    public DbSet<RevisionRow> Revisions => Set<RevisionRow>();

    public DbSet<PracticeRow> Practice => Set<PracticeRow>();

    public DbSet<SetAsideLickRow> SetAsideLicks => Set<SetAsideLickRow>();

    public DbSet<OwnLickRow> Licks => Set<OwnLickRow>();

    public DbSet<LessonRow> Lessons => Set<LessonRow>();

    public DbSet<TakeRow> Takes => Set<TakeRow>();

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
        model.Entity<SetAsideLickRow>(aside => aside.HasKey(row => new { row.Who, row.Lick }));
        model.Entity<PracticeRow>(practice =>
            practice.HasKey(row => new
            {
                row.Break,
                row.Day,
                row.Phrase,
            })
        );
        model.Entity<OwnLickRow>(lick =>
        {
            lick.HasKey(row => row.Number);
            lick.HasIndex(row => row.Id).IsUnique();
            lick.HasIndex(row => row.Name).IsUnique();
        });
        model.Entity<LessonRow>(lesson =>
        {
            lesson.HasKey(row => row.Number);
            lesson.HasIndex(row => row.Id).IsUnique();
            lesson.HasIndex(row => row.Break);
        });
        model.Entity<TakeRow>(take =>
        {
            take.HasKey(row => row.Number);
            take.HasIndex(row => row.Id).IsUnique();
            take.HasIndex(row => row.Break);
            take.HasIndex(row => row.Digest);
        });
    }
}
