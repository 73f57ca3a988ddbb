using Microsoft.EntityFrameworkCore;

namespace Rollwright.Library.Storage;

/// <summary>The tables, alike in both kinds of database, as one person sees them: what is another's is not there.</summary>
/// <param name="options">Of the database.</param>
/// <param name="scope">Whose rows are seen, and whose the new ones are.</param>
internal abstract class LibraryContext(DbContextOptions options, Scope scope) : DbContext(options)
{
    /// <summary>Whose new rows are.</summary>
    public string Owner => scope.Owner;

    /// <summary>Rows of everybody are seen: for backups.</summary>
    public bool SeesAll => scope.SeesAll;

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

    /// <summary>New rows belong to whoever keeps them, unless they come from a backup and belong to somebody already.</summary>
    public override Task<int> SaveChangesAsync(
        bool acceptAllChangesOnSuccess,
        CancellationToken cancellationToken = default
    )
    {
        foreach (var entry in ChangeTracker.Entries<IOwned>().Where(entry => entry.State == EntityState.Added))
        {
            if (entry.Entity.Owner.Length == 0)
                entry.Entity.Owner = Owner;
        }
        return base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }

    protected override void OnModelCreating(ModelBuilder model)
    {
        Own<TuneRow>(model);
        Own<BreakRow>(model);
        Own<RevisionRow>(model);
        Own<PracticeRow>(model);
        Own<OwnLickRow>(model);
        Own<LessonRow>(model);
        Own<TakeRow>(model);
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
            lick.HasIndex(row => new { row.Owner, row.Name }).IsUnique();
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

    // In one place, so that no question can forget it.
    private void Own<T>(ModelBuilder model)
        where T : class, IOwned
    {
        model.Entity<T>().HasIndex(row => row.Owner);
        model.Entity<T>().HasQueryFilter(row => SeesAll || row.Owner == Owner);
    }
}

/// <summary>Whose rows of a library are asked for.</summary>
/// <param name="Owner">Empty: the one person of a file, or nobody's in particular.</param>
/// <param name="SeesAll">Those of everybody.</param>
internal readonly record struct Scope(string Owner, bool SeesAll = false);
