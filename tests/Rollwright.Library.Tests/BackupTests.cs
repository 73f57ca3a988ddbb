using System.IO.Compression;
using Rollwright.Library.Backups;
using Rollwright.Library.Kept;

namespace Rollwright.Library.Tests;

public class BackupTests
{
    [Theory]
    [InlineData(false, false)]
    [InlineData(false, true)]
    [InlineData(true, false)]
    public async Task A_library_moves_from_one_kind_of_database_to_the_other_and_is_the_same(
        bool fromServer,
        bool toServer
    )
    {
        await using var one = await Shelf.OpenAsync(fromServer);
        await using var other = await Shelf.OpenAsync(toServer);
        var tunes = Enumerable.Range(0, 40).Select(i => Shelf.Tune($"Tune {i} é", tags: [$"tag {i % 3}"])).ToList();
        await one.Library.AddAsync(tunes);
        var id = (
            await one.Library.BeginAsync(tunes[3].Id, "mine", new(Guid.NewGuid(), "begun", "{\"Level\":3}", "{}", "me"))
        ).Id;
        for (var i = 1; i < 6; i++)
            await one.Library.SaveAsync(id, i, new(Guid.NewGuid(), $"change {i}", "", "{}"));
        await one.Library.UndoAsync(id);
        await one.Library.PractiseAsync(id, new(new(2026, 3, 2), 2, 60, 5, 1));
        await one.Library.SetLickAsideAsync("me", "a lick");
        await other.Library.SetLickAsideAsync("me", "another");
        await one.Library.AddLickAsync(OwnThingsTests.OwnLick("hammer-on, then the drone"));
        await one.Library.KeepLessonAsync(Guid.NewGuid(), id, "first week", "[{\"words\":\"slowly\"}]");
        var recording = new byte[70_000];
        new Random(4).NextBytes(recording);
        await one.Library.AddTakeAsync(id, recording, "wav", "{}");
        var take = await one.Library.AddTakeAsync(id, recording, "wav", "{\"clean\":2}");
        var file = Path.Combine(one.Folder, "backup.zip");
        await Backup.WriteAsync(one.Library, file, TimeProvider.System);
        (await Backup.RestoreAsync(other.Library, file)).Should().Be(new Restored(40, 1, 1, 1, 2));

        (await other.Library.TunesAsync(100)).Should().BeEquivalentTo(await one.Library.TunesAsync(100), Near);
        (await other.Library.BreaksAsync()).Should().BeEquivalentTo(await one.Library.BreaksAsync(), Near);
        (await other.Library.RevisionsAsync(id)).Should().BeEquivalentTo(await one.Library.RevisionsAsync(id), Near);
        (await other.Library.PracticeAsync(id)).Should().Equal(await one.Library.PracticeAsync(id));
        (await other.Library.ListLicksAsync()).Should().BeEquivalentTo(await one.Library.ListLicksAsync(), Near);
        (await other.Library.LessonsAsync()).Should().BeEquivalentTo(await one.Library.LessonsAsync(), Near);
        (await other.Library.TakesAsync(id)).Should().BeEquivalentTo(await one.Library.TakesAsync(id), Near);
        (await other.Library.RecordingAsync(take)).ToArray().Should().Equal(recording);
        (await other.Library.RedoAsync(id))!.Number.Should().Be(6, "what was gone back from moved too");
        (await other.Library.FindAsync("tune 7", 5)).Should().NotBeEmpty();
        (await other.Library.SetAsideLicksAsync("me")).Should().Equal("a lick", "another");
        (await Backup.RestoreAsync(other.Library, file)).Words.Should().Be("nothing new", "a second time adds nothing");
    }

    [Fact]
    public async Task What_is_no_backup_is_refused_and_nothing_restored()
    {
        await using var shelf = await Shelf.OpenAsync();
        var file = Path.Combine(shelf.Folder, "x.zip");
        File.WriteAllText(file, "this is no zip");
        await Refused(shelf, file, "no backup, or damaged");
        Zip(file, ("manifest.json", "{\"form\":\"rollwright-library\",\"version\":99,\"tunes\":0,\"breaks\":0}"));
        await Refused(shelf, file, "newer version");
        Zip(file, ("manifest.json", "{\"form\":\"rollwright-library\",\"version\":1}"), ("tunes.json", "[{\"id\":"));
        await Refused(shelf, file, "no backup, or damaged");
        Zip(file, ("../../etc/passwd", "x"));
        await Refused(shelf, file, "no backup, or damaged");
        await Refused(shelf, Path.Combine(shelf.Folder, "nothing.zip"), "nothing.zip");
        (await shelf.Library.CountAsync()).Should().Be(0);
    }

    [Fact]
    public async Task A_recording_that_is_not_what_its_name_says_restores_nothing()
    {
        await using var shelf = await Shelf.OpenAsync();
        await using var other = await Shelf.OpenAsync();
        await shelf.Library.AddTakeAsync(await OwnThingsTests.Begun(shelf), new byte[] { 1, 2, 3 }, "wav", "");
        var file = Path.Combine(shelf.Folder, "backup.zip");
        await Backup.WriteAsync(shelf.Library, file, TimeProvider.System);
        using (var zip = ZipFile.Open(file, ZipArchiveMode.Update))
        {
            var entry = zip.Entries.Single(entry => entry.FullName.StartsWith("takes/", StringComparison.Ordinal));
            using var stream = entry.Open();
            stream.WriteByte(9);
        }
        await Refused(other, file, "no backup, or damaged");
        (await other.Library.CountAsync()).Should().Be(0);
        Directory.Exists($"{other.Place.File}.takes").Should().BeFalse();
    }

    // As the program wrote them before licks, lessons and takes were kept.
    [Fact]
    public async Task A_backup_of_the_first_version_is_restored()
    {
        await using var shelf = await Shelf.OpenAsync();
        var file = Path.Combine(shelf.Folder, "old.zip");
        var (tune, played) = (Guid.NewGuid(), Guid.NewGuid());
        Zip(
            file,
            ("manifest.json", "{\"form\":\"rollwright-library\",\"version\":1,\"tunes\":1,\"breaks\":1}"),
            (
                "tunes.json",
                $"[{{\"id\":\"{tune}\",\"title\":\"Old\",\"abc\":\"X:1\",\"key\":\"G major\",\"metre\":\"4/4\",\"composer\":\"\",\"source\":\"\",\"tags\":[],\"fingerprint\":\"1\",\"addedAt\":\"2026-01-02T03:04:05+00:00\"}}]"
            ),
            (
                $"breaks/{played}.json",
                $"{{\"break\":{{\"id\":\"{played}\",\"tune\":\"{tune}\",\"title\":\"Old\",\"current\":1,\"changedAt\":\"2026-01-02T03:04:05+00:00\"}},\"revisions\":[{{\"number\":1,\"parent\":null,\"at\":\"2026-01-02T03:04:05+00:00\",\"by\":\"\",\"words\":\"begun\",\"wishes\":\"\",\"break\":\"{{}}\"}}],\"practice\":[]}}"
            )
        );
        (await Backup.RestoreAsync(shelf.Library, file)).Words.Should().Be("1 tune, 1 break");
        (await shelf.Library.CurrentAsync(played))!.Draft.Should().BeNull();
    }

    [Fact]
    public async Task A_backup_that_cannot_be_written_leaves_no_half_file()
    {
        await using var shelf = await Shelf.OpenAsync();
        var write = () =>
            Backup.WriteAsync(shelf.Library, Path.Combine(shelf.Folder, "no", "such", "x.zip"), TimeProvider.System);
        await write.Should().ThrowAsync<LibraryException>();
        Directory.GetFiles(shelf.Folder, "*.part", SearchOption.AllDirectories).Should().BeEmpty();
    }

    // PostgreSQL keeps moments to a millionth of a second.
    private static AwesomeAssertions.Equivalency.EquivalencyOptions<T> Near<T>(
        AwesomeAssertions.Equivalency.EquivalencyOptions<T> options
    ) =>
        options
            .Using<DateTimeOffset>(pair =>
                pair.Subject.Should().BeCloseTo(pair.Expectation, TimeSpan.FromMilliseconds(0.002))
            )
            .WhenTypeIs<DateTimeOffset>();

    private static async Task Refused(Shelf shelf, string file, string words)
    {
        var restore = () => Backup.RestoreAsync(shelf.Library, file);
        (await restore.Should().ThrowAsync<LibraryException>()).WithMessage($"*{words}*");
    }

    private static void Zip(string file, params (string Name, string Text)[] entries)
    {
        File.Delete(file);
        using var zip = ZipFile.Open(file, ZipArchiveMode.Create);
        foreach (var (name, text) in entries)
        {
            using var writer = new StreamWriter(zip.CreateEntry(name).Open());
            writer.Write(text);
        }
    }
}
