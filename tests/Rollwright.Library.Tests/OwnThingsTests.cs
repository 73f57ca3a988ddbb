using System.Text;
using Rollwright.Banjo.Licks;
using Rollwright.Library.Kept;

namespace Rollwright.Library.Tests;

/// <summary>Tags, own licks, lessons and takes: the same of a file and of a server.</summary>
public class OwnThingsTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_tag_is_put_on_found_and_taken_off(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var tune = Shelf.Tune("Kettle", tags: ["easy"]);
        await shelf.Library.AddAsync([tune, Shelf.Tune("Other")]);
        (await shelf.Library.TagAsync(tune.Id, "  slow \n jam ")).Tags.Should().Equal("easy", "slow jam");
        (await shelf.Library.TagAsync(tune.Id, "Slow Jam")).Tags.Should().Equal("easy", "slow jam");
        (await shelf.Library.FindAsync("slow jam", 5)).Should().ContainSingle().Which.Title.Should().Be("Kettle");
        (await shelf.Library.UntagAsync(tune.Id, "SLOW JAM")).Tags.Should().Equal("easy");
        (await shelf.Library.FindAsync("slow jam", 5)).Should().BeEmpty();
        (await shelf.Reopen()).Should().NotBeNull();
        (await shelf.Library.TuneAsync(tune.Id))!.Tags.Should().Equal("easy");
        var missing = () => shelf.Library.TagAsync(Guid.NewGuid(), "x");
        (await missing.Should().ThrowAsync<LibraryException>()).WithMessage("*no such tune*");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_lick_of_one_s_own_comes_back_as_it_was_and_no_two_are_called_alike(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var lick = OwnLick("hammer-on, then the drone");
        var kept = await shelf.Library.AddLickAsync(lick);
        var listed = await (await shelf.Reopen()).ListLicksAsync();
        listed.Should().ContainSingle().Which.Id.Should().Be(kept.Id);
        var (bank, faults) = KeptLick.BankOf(listed, "licks");
        faults.Should().BeEmpty();
        bank.Find(lick.Name).Should().BeEquivalentTo(lick);

        var same = () => shelf.Library.AddLickAsync(OwnLick("Hammer-on, then the DRONE"));
        (await same.Should().ThrowAsync<LibraryException>()).WithMessage("*called*already*");
        var bad = () => shelf.Library.AddLickAsync(OwnLick("a | bar"));
        await bad.Should().ThrowAsync<LibraryException>();
        (await shelf.Library.RemoveLickAsync(kept.Id)).Should().BeTrue();
        (await shelf.Library.RemoveLickAsync(kept.Id)).Should().BeFalse();
        (await shelf.Library.ListLicksAsync()).Should().BeEmpty();
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_lesson_is_kept_changed_and_taken_away(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var played = await Begun(shelf);
        var id = Guid.NewGuid();
        await shelf.Library.KeepLessonAsync(id, played, "first week", "[]");
        await shelf.Library.KeepLessonAsync(id, played, "second week", "[{\"words\":\"slowly\"}]");
        var lesson = (await (await shelf.Reopen()).LessonsAsync(played)).Should().ContainSingle().Subject;
        (lesson.Title, lesson.Edits).Should().Be(("second week", "[{\"words\":\"slowly\"}]"));
        (await shelf.Library.LessonsAsync(Guid.NewGuid())).Should().BeEmpty();
        var without = () => shelf.Library.KeepLessonAsync(Guid.NewGuid(), Guid.NewGuid(), "x", "");
        (await without.Should().ThrowAsync<LibraryException>()).WithMessage("*no such break*");
        (await shelf.Library.RemoveLessonAsync(id)).Should().BeTrue();
        (await shelf.Library.LessonsAsync()).Should().BeEmpty();
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_take_has_its_recording_which_lies_there_once_and_goes_with_the_last_take(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var played = await Begun(shelf);
        var recording = Encoding.UTF8.GetBytes("RIFF, as it were");
        var take = await shelf.Library.AddTakeAsync(played, recording, "../../WAV", "{\"clean\":3}");
        var again = await shelf.Library.AddTakeAsync(played, recording, "wav", "");
        (take.Ending, again.Digest).Should().Be(("wav", take.Digest));
        var library = await shelf.Reopen();
        (await library.TakesAsync(played)).Select(one => one.Notes).Should().Equal("", "{\"clean\":3}");
        (await library.RecordingAsync(take)).ToArray().Should().Equal(recording);

        (await library.RemoveTakeAsync(take.Id)).Should().BeTrue();
        (await library.RecordingAsync(again)).ToArray().Should().Equal(recording, "the other take has it still");
        (await library.RemoveTakeAsync(again.Id)).Should().BeTrue();
        var gone = () => library.RecordingAsync(again);
        (await gone.Should().ThrowAsync<LibraryException>()).WithMessage("*recording of a take is gone*");
        var nothing = () => library.AddTakeAsync(played, default, "wav", "");
        (await nothing.Should().ThrowAsync<LibraryException>()).WithMessage("*0.0 MB is not kept*");
    }

    [Fact]
    public async Task A_recording_that_was_changed_behind_the_library_s_back_is_refused()
    {
        await using var shelf = await Shelf.OpenAsync();
        var take = await shelf.Library.AddTakeAsync(await Begun(shelf), new byte[] { 1, 2, 3 }, "wav", "");
        var file = Directory.GetFiles($"{shelf.Place.File}.takes").Should().ContainSingle().Subject;
        Path.GetFileName(file).Should().Be(take.Digest);
        File.WriteAllBytes(file, [1, 2, 4]);
        var read = () => shelf.Library.RecordingAsync(take);
        (await read.Should().ThrowAsync<LibraryException>()).WithMessage("*not what was kept*");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_search_brings_each_tune_with_its_breaks(bool onServer)
    {
        await using var shelf = await Shelf.OpenAsync(onServer);
        var (one, other) = (Shelf.Tune("Kettle One"), Shelf.Tune("Kettle Other"));
        await shelf.Library.AddAsync([one, other]);
        await shelf.Library.BeginAsync(one.Id, "easy", new(Guid.NewGuid(), "begun", "", "{}"));
        await shelf.Library.BeginAsync(one.Id, "hard", new(Guid.NewGuid(), "begun", "", "{}"));
        var found = await shelf.Library.SearchAsync("kett", 5);
        found
            .Select(tune => (tune.Tune.Title, string.Join(' ', tune.Breaks.Select(kept => kept.Title))))
            .Should()
            .BeEquivalentTo([("Kettle One", "hard easy"), ("Kettle Other", "")]);
        (await shelf.Library.SearchAsync("", 5)).Should().BeEmpty();
    }

    internal static Lick OwnLick(string name)
    {
        var (bank, faults) = LickBank.BuiltIn.Read(
            "test",
            $"{LickRow.Head}\nplain name | fill | open-g | G | - | 2 | twos | 3.0Th2 1.0M 5.0T 2.0I 1.0M 2.0I 5.0T 1.0M\n"
        );
        faults.Should().BeEmpty();
        return bank.Find("plain name")! with { Name = name };
    }

    internal static async Task<Guid> Begun(Shelf shelf)
    {
        var tune = Shelf.Tune("Test");
        await shelf.Library.AddAsync([tune]);
        return (await shelf.Library.BeginAsync(tune.Id, "Test", new(Guid.NewGuid(), "begun", "", "{}"))).Id;
    }
}
