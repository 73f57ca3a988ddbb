using Rollwright.Library.Backups;
using Rollwright.Library.Kept;

namespace Rollwright.Library.Tests;

/// <summary>People who share a library have their own things in it, and none of anybody else's.</summary>
public class OwnersTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task What_one_keeps_another_neither_finds_nor_changes(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var (ada, ben) = (shelf.Library.For("ada"), shelf.Library.For("ben"));
        var tune = Shelf.Tune("Wren on the Gatepost", tags: "class");
        await ada.AddAsync([tune]);
        var id = (await ada.BeginAsync(tune.Id, "hers", Draft("begun"))).Id;
        await ada.SaveAsync(id, 1, Draft("more"));
        await ada.PractiseAsync(id, new(new(2026, 3, 2), 1, 60, 5, 1));
        await ada.AddLickAsync(OwnThingsTests.OwnLick("hammer-on, then the drone"));
        var lesson = await ada.KeepLessonAsync(Guid.NewGuid(), id, "first week", "[]");
        var take = await ada.AddTakeAsync(id, new byte[] { 1, 2, 3 }, "wav", "");

        foreach (var other in new[] { ben, shelf.Library })
        {
            (await other.CountAsync()).Should().Be(0);
            (await other.TunesAsync(10)).Should().BeEmpty();
            (await other.TuneAsync(tune.Id)).Should().BeNull();
            (await other.FindAsync("wren", 10)).Should().BeEmpty();
            (await other.SearchAsync("wren", 10)).Should().BeEmpty();
            (await other.WithFingerprintsAsync([tune.Fingerprint])).Should().BeEmpty();
            (await other.BreaksAsync()).Should().BeEmpty();
            (await other.BreakAsync(id)).Should().BeNull();
            (await other.RevisionsAsync(id)).Should().BeEmpty();
            (await other.CurrentAsync(id)).Should().BeNull();
            (await other.PracticeAsync(id)).Should().BeEmpty();
            (await other.ListLicksAsync()).Should().BeEmpty();
            (await other.LessonsAsync()).Should().BeEmpty();
            (await other.TakesAsync()).Should().BeEmpty();
            await Refused(() => other.SaveAsync(id, 2, Draft("mine now")));
            await Refused(() => other.GoAsync(id, 2, 1));
            await Refused(() => other.UndoAsync(id));
            await Refused(() => other.RedoAsync(id));
            await Refused(() => other.PractiseAsync(id, new(new(2026, 3, 2), 1, 90, 1, 0)));
            await Refused(() => other.TagAsync(tune.Id, "mine"));
            await Refused(() => other.UntagAsync(tune.Id, "class"));
            await Refused(() => other.KeepLessonAsync(Guid.NewGuid(), id, "mine", "[]"));
            await Refused(() => other.AddTakeAsync(id, new byte[] { 1 }, "wav", ""));
            (await other.RemoveLessonAsync(lesson.Id)).Should().BeFalse();
            (await other.RemoveTakeAsync(take.Id)).Should().BeFalse();
            (await other.RemoveLickAsync((await ada.ListLicksAsync())[0].Id)).Should().BeFalse();
        }

        (await ada.FindAsync("wren", 10)).Should().ContainSingle();
        (await ada.RevisionsAsync(id)).Should().HaveCount(2);
        (await ada.PracticeAsync(id)).Should().Equal(new KeptPractice(new(2026, 3, 2), 1, 60, 5, 1));
        (await ada.RecordingAsync(take)).ToArray().Should().Equal(1, 2, 3);
        // The same tune, the same lick's name, the same recording may be another's too.
        await ben.AddAsync([tune with { Id = Guid.NewGuid() }]);
        await ben.AddLickAsync(OwnThingsTests.OwnLick("hammer-on, then the drone"));
        var his = (await ben.BeginAsync((await ben.TunesAsync(1))[0].Id, "his", Draft("begun"))).Id;
        var same = await ben.AddTakeAsync(his, new byte[] { 1, 2, 3 }, "wav", "");
        (await ada.RemoveTakeAsync(take.Id)).Should().BeTrue();
        (await ben.RecordingAsync(same)).ToArray().Should().Equal([1, 2, 3], "it is still his");
    }

    [Fact]
    public async Task The_best_of_what_one_has_is_found_however_much_the_others_have()
    {
        await using var shelf = await Shelf.OpenAsync();
        await shelf.Library.For("ada").AddAsync([.. Enumerable.Range(0, 30).Select(_ => Shelf.Tune("Wren"))]);
        await shelf.Library.For("ben").AddAsync([Shelf.Tune("The Wren on the Old Gatepost by the Mill")]);
        (await shelf.Library.For("ben").FindAsync("wren", 5)).Should().ContainSingle();
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_backup_of_all_says_whose_each_thing_is_and_one_person_s_becomes_whoever_restores_it(
        bool toServer
    )
    {
        await using var one = await Shelf.OpenAsync(onServer: true);
        await using var all = await Shelf.OpenAsync(onServer: true);
        await using var own = await Shelf.OpenAsync(toServer);
        await using var alone = await Shelf.OpenAsync();
        foreach (var name in new[] { "ada", "ben" })
        {
            var tune = Shelf.Tune($"Tune of {name}");
            await one.Library.For(name).AddAsync([tune]);
            var id = (await one.Library.For(name).BeginAsync(tune.Id, name, Draft("begun"))).Id;
            await one.Library.For(name).PractiseAsync(id, new(new(2026, 3, 2), 1, 60, 5, 1));
            await one.Library.For(name).AddLickAsync(OwnThingsTests.OwnLick("hammer-on, then the drone"));
            await one.Library.For(name).KeepLessonAsync(Guid.NewGuid(), id, name, "[]");
            await one.Library.For(name).AddTakeAsync(id, new byte[] { 1, 2, 3 }, "wav", "");
            await one.Library.For(name).SetLickAsideAsync(name, $"lick of {name}");
        }
        await one.Library.AddAsync([Shelf.Tune("Nobody's")]);

        var file = Path.Combine(one.Folder, "all.zip");
        await Backup.WriteAsync(one.Library, file, TimeProvider.System);
        (await Backup.RestoreAsync(all.Library, file)).Should().Be(new Restored(3, 2, 2, 2, 2));
        (await all.Library.TunesAsync(10)).Select(tune => tune.Title).Should().Equal("Nobody's");
        foreach (var name in new[] { "ada", "ben" })
        {
            var theirs = all.Library.For(name);
            (await theirs.TunesAsync(10)).Select(tune => tune.Title).Should().Equal($"Tune of {name}");
            var played = (await theirs.BreaksAsync()).Should().ContainSingle().Subject;
            (await theirs.RevisionsAsync(played.Id)).Should().ContainSingle();
            (await theirs.PracticeAsync(played.Id)).Should().ContainSingle();
            (await theirs.ListLicksAsync()).Should().ContainSingle();
            (await theirs.LessonsAsync()).Should().ContainSingle();
            (await theirs.TakesAsync()).Should().ContainSingle();
        }

        var intoAFile = () => Backup.RestoreAsync(alone.Library, file);
        (await intoAFile.Should().ThrowAsync<LibraryException>()).WithMessage(
            "*of several people*nothing was restored*"
        );
        (await alone.Library.CountAsync()).Should().Be(0);

        var hers = Path.Combine(one.Folder, "hers.zip");
        await Backup.WriteAsync(one.Library.For("ada"), hers, TimeProvider.System);
        (await Backup.RestoreAsync(own.Library.For("cleo"), hers)).Should().Be(new Restored(1, 1, 1, 1, 1));
        (await own.Library.For("cleo").TunesAsync(10)).Select(tune => tune.Title).Should().Equal("Tune of ada");
        (await own.Library.SetAsideLicksAsync("cleo")).Should().Equal("lick of ada");
        (await own.Library.CountAsync()).Should().Be(0);
    }

    private static Draft Draft(string words) => new(Guid.NewGuid(), words, "{}", "{}");

    private static async Task Refused<T>(Func<Task<T>> ask) => await ask.Should().ThrowAsync<LibraryException>();

    private static async Task Refused(Func<Task> ask) => await ask.Should().ThrowAsync<LibraryException>();
}
