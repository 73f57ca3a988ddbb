using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Rollwright.Library.Kept;
using Rollwright.Library.Storage;

namespace Rollwright.Library.Tests;

/// <summary>A library that cannot be used says so in one line with a remedy, and answers again when it can.</summary>
public class FaultTests
{
    [Fact]
    public async Task A_library_of_a_newer_version_is_refused_and_not_touched()
    {
        await using var shelf = await Shelf.OpenAsync();
        Sql(shelf, "INSERT INTO __EFMigrationsHistory VALUES ('29990101000000_Later', '99.0')");
        await Refused(shelf, "newer version*open it with that version");
    }

    [Fact]
    public async Task What_is_no_library_is_refused_and_stays_as_it_was()
    {
        await using var shelf = await Shelf.OpenAsync();
        var file = Path.Combine(shelf.Folder, "letter.db");
        File.WriteAllText(file, "Dear library, this is a letter and no database at all.");
        var open = () => TuneLibrary.OpenAsync(new(file, null), TimeProvider.System);
        (await open.Should().ThrowAsync<LibraryException>()).WithMessage($"{file}: it is damaged, or is no library;*");
        File.ReadAllText(file).Should().StartWith("Dear library");
    }

    [Fact]
    public async Task A_locked_library_says_so_and_takes_the_change_afterwards()
    {
        await using var shelf = await Shelf.OpenAsync();
        await using (var other = new SqliteConnection($"Data Source={shelf.Place.File};Pooling=False"))
        {
            await other.OpenAsync();
            await using var held = other.BeginTransaction(deferred: false);
            var add = () => shelf.Library.AddAsync([Shelf.Tune("One")]);
            (await add.Should().ThrowAsync<LibraryException>()).WithMessage("*another program is writing*try again*");
        }
        await shelf.Library.AddAsync([Shelf.Tune("One")]);
        (await shelf.Library.CountAsync()).Should().Be(1);
    }

    // SQLite's own limit on the pages of a file answers as a full disk does, on any machine; a disk that is really full: KeepingInNeedTests.
    [Fact]
    public async Task A_file_that_may_not_grow_is_a_full_disk_and_nothing_is_half_done()
    {
        await using var shelf = await Shelf.OpenAsync();
        await shelf.Library.AddAsync([Shelf.Tune("One")]);
        var add = () =>
            shelf.Library.Change(async context =>
            {
                await context.Database.ExecuteSqlRawAsync("PRAGMA max_page_count=1");
                for (var i = 0; i < 100; i++)
                {
                    context.Tunes.Add(Mapping.Row(Shelf.Tune($"Many {i}", new string('x', 1_000))));
                    await context.SaveChangesAsync();
                }
                return true;
            });
        (await add.Should().ThrowAsync<LibraryException>()).WithMessage("*the disk is full; make room, then try again");
        (await shelf.Library.TunesAsync(10)).Should().ContainSingle().Which.Title.Should().Be("One");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_library_of_the_first_version_is_brought_up_to_date_with_what_is_in_it(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var tune = Shelf.Tune("Old", tags: ["old"]);
        await shelf.Library.AddAsync([tune]);
        var draft = new Draft(Guid.NewGuid(), "begun", "", "{}");
        var id = (await shelf.Library.BeginAsync(tune.Id, "Old", draft)).Id;
        await shelf.Library.Do(async context =>
        {
            await context.GetService<IMigrator>().MigrateAsync("Beginning");
            return true;
        });
        await shelf.Reopen();
        (await shelf.Library.FindAsync("old", 5)).Should().ContainSingle();
        var kept = await shelf.Library.CurrentAsync(id);
        (kept!.Words, kept.Draft).Should().Be(("begun", null));
        (await shelf.Library.SaveAsync(id, 1, draft)).Should().BeOfType<SaveOutcome.Saved>();
        await shelf.Library.AddLickAsync(OwnThingsTests.OwnLick("after the change"));
    }

    [Fact]
    public async Task A_program_that_was_killed_while_it_made_the_tables_keeps_nobody_out()
    {
        await using var shelf = await Shelf.OpenAsync();
        Sql(
            shelf,
            "CREATE TABLE IF NOT EXISTS __EFMigrationsLock (Id INTEGER PRIMARY KEY, Timestamp TEXT);"
                + "INSERT OR REPLACE INTO __EFMigrationsLock VALUES (1, '2026-01-01'); DELETE FROM __EFMigrationsHistory;"
                + "DROP TABLE Tunes; DROP TABLE Breaks; DROP TABLE Revisions; DROP TABLE Practice; DROP TABLE TuneSearch;"
                + "DROP TABLE Licks; DROP TABLE Lessons; DROP TABLE Takes; DROP TABLE SetAsideLicks"
        );
        await shelf.Reopen().WaitAsync(TimeSpan.FromSeconds(20));
        (await shelf.Library.CountAsync()).Should().Be(0);
    }

    [Fact]
    public async Task A_file_that_was_taken_away_is_missed_and_does_not_come_back_empty()
    {
        await using var shelf = await Shelf.OpenAsync();
        File.Delete(shelf.Place.File!);
        var add = () => shelf.Library.AddAsync([Shelf.Tune("One")]);
        (await add.Should().ThrowAsync<LibraryException>()).WithMessage("*cannot be opened*");
        File.Exists(shelf.Place.File).Should().BeFalse();
    }

    [Fact]
    public async Task A_place_that_cannot_be_made_is_refused()
    {
        await using var shelf = await Shelf.OpenAsync();
        var file = Path.Combine(shelf.Folder, "here");
        File.WriteAllText(file, "");
        var open = () => TuneLibrary.OpenAsync(new(Path.Combine(file, "library.db"), null), TimeProvider.System);
        await open.Should().ThrowAsync<LibraryException>();
    }

    [Fact]
    public async Task A_server_that_is_not_there_is_refused_with_its_name_and_without_its_password()
    {
        var place = LibraryPlace.Of("Host=127.0.0.1;Port=1;Database=x;Username=y;Password=secret;Timeout=2");
        var open = () => TuneLibrary.OpenAsync(place, TimeProvider.System);
        var fault = (await open.Should().ThrowAsync<LibraryException>()).Which;
        fault.Message.Should().Contain("Host=127.0.0.1").And.NotContain("secret");
    }

    private static async Task Refused(Shelf shelf, string words)
    {
        var open = () => TuneLibrary.OpenAsync(shelf.Place, TimeProvider.System);
        (await open.Should().ThrowAsync<LibraryException>()).WithMessage($"*{words}*");
    }

    private static void Sql(Shelf shelf, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={shelf.Place.File};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
