using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Rollwright.Class.People;
using Rollwright.Library.Storage;

namespace Rollwright.Class.Storage;

/// <summary>
/// The tables of a class, in a schema of their own beside the library's. The keys that protect sign-ins lie here too, so that
/// several servers on one database know each other's.
/// </summary>
public sealed class ClassContext(DbContextOptions<ClassContext> options)
    : IdentityUserContext<Member>(options),
        IDataProtectionKeyContext
{
    public const string Schema = "class";

    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    internal DbSet<InvitationRow> Invitations => Set<InvitationRow>();

    internal DbSet<PublishedRow> Lessons => Set<PublishedRow>();

    internal DbSet<DocumentRow> Documents => Set<DocumentRow>();

    internal DbSet<CopyRow> Copies => Set<CopyRow>();

    internal DbSet<SetPracticeRow> Practice => Set<SetPracticeRow>();

    internal DbSet<HandedInRow> Takes => Set<HandedInRow>();

    internal static DbContextOptions<ClassContext> Options(string connection) =>
        new DbContextOptionsBuilder<ClassContext>()
            .UseNpgsql(connection, server => server.MigrationsHistoryTable("__EFMigrationsHistory", Schema))
            .AddInterceptors(new StorableText())
            .Options;

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.HasDefaultSchema(Schema);
        builder.Entity<Member>().ToTable("Members");
        builder.Entity<InvitationRow>().HasIndex(row => row.Digest).IsUnique();
        builder.Entity<PublishedRow>().HasIndex(row => row.Source).IsUnique();
        builder.Entity<DocumentRow>().HasKey(row => new { row.Lesson, row.Name });
        builder.Entity<CopyRow>().HasKey(row => new { row.Lesson, row.Member });
        builder.Entity<SetPracticeRow>().HasIndex(row => row.Lesson);
        builder.Entity<HandedInRow>(take =>
        {
            take.HasIndex(row => row.Pupil);
            take.HasIndex(row => row.Lesson);
            take.HasIndex(row => row.Take).IsUnique();
        });
    }

    /// <summary>For the tool that writes migrations.</summary>
    internal sealed class Factory : IDesignTimeDbContextFactory<ClassContext>
    {
        public ClassContext CreateDbContext(string[] args) => new(Options("Host=localhost;Database=design"));
    }
}
