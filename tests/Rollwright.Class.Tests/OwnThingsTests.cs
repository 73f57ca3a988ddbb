using System.Net;
using System.Text.Json;
using Rollwright.Class.People;

namespace Rollwright.Class.Tests;

/// <summary>What belongs to one member, asked for by another, by its right address.</summary>
public class OwnThingsTests
{
    private static readonly byte[] Sound = [.. "RIFF"u8, .. new byte[40]];

    [Fact]
    public async Task A_take_is_heard_by_its_pupil_and_the_teachers_and_by_nobody_else()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (teacher, ada) = await shared.Enter("Ada", Role.Teacher);
        var (pupil, ben) = await shared.Enter("Ben", Role.Pupil);
        var (other, _) = await shared.Enter("Cleo", Role.Pupil);
        var lesson = await shared.Publish(ada);
        var page = $"/class/lessons/{lesson}";
        using (var handedIn = await pupil.Post($"{page}/takes", page, "sound", "my take.wav", Sound))
            handedIn.Headers.Location!.ToString().Should().Be(page);
        var take = (await shared.Room.TakesAsync(ben)).Should().ContainSingle().Subject;
        var path = $"/class/takes/{take.Id}/sound";
        foreach (var guest in new[] { teacher, pupil })
        {
            using var heard = await guest.Get(path);
            heard.Content.Headers.ContentType!.ToString().Should().Be("audio/wav");
            (await heard.Content.ReadAsByteArrayAsync()).Should().Equal(Sound);
        }
        using (var refused = await other.Get(path))
            refused.StatusCode.Should().Be(HttpStatusCode.NotFound);
        using (var taken = await other.Post($"/class/takes/{take.Id}/back", page, ("lesson", $"{lesson}")))
            taken.StatusCode.Should().Be(HttpStatusCode.NotFound);
        using (var hers = await other.Get(page))
            (await hers.Content.ReadAsStringAsync()).Should().NotContain($"{take.Id}");

        using (await teacher.Post($"/class/takes/{take.Id}/answer", "/class/takes", ("words", "Slower in bar 3.")))
        using (var answered = await pupil.Get(page))
            (await answered.Content.ReadAsStringAsync()).Should().Contain("Ada: Slower in bar 3.");
        using (await pupil.Post($"/class/takes/{take.Id}/back", page, ("lesson", $"{lesson}")))
        using (var gone = await teacher.Get(path))
            gone.StatusCode.Should().Be(HttpStatusCode.NotFound);
        (await shared.Room.LibraryOf(ben).TakesAsync()).Should().BeEmpty("its recording went with it");
    }

    [Theory]
    [InlineData("take.html")]
    [InlineData("take.svg")]
    [InlineData("take")]
    [InlineData("take.wav.exe")]
    public async Task What_is_no_recording_is_not_taken(string name)
    {
        await using var shared = await SharedClass.OpenAsync();
        var (_, ada) = await shared.Enter("Ada", Role.Teacher);
        var (pupil, ben) = await shared.Enter("Ben", Role.Pupil);
        var page = $"/class/lessons/{await shared.Publish(ada)}";
        using var answer = await pupil.Post($"{page}/takes", page, "sound", name, Sound);
        answer.StatusCode.Should().Be(HttpStatusCode.UnprocessableEntity);
        (await shared.Room.TakesAsync(ben)).Should().BeEmpty();
    }

    [Fact]
    public async Task A_lesson_is_seen_while_it_is_published_and_what_was_made_of_it_stays()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (teacher, ada) = await shared.Enter("Ada", Role.Teacher);
        var (pupil, ben) = await shared.Enter("Ben", Role.Pupil);
        var lesson = await shared.Publish(ada);
        var page = $"/class/lessons/{lesson}";
        using (var played = await pupil.Get($"{page}/page"))
            (await played.Content.ReadAsStringAsync()).Should().Contain("<title>page</title>");
        using (var handout = await pupil.Get($"{page}/take/handout"))
            handout.Content.Headers.ContentDisposition!.FileName.Should().Be("handout.pdf");
        using (var opened = await pupil.Post($"{page}/open", page, ("lesson", $"{lesson}")))
        using (var again = await pupil.Post($"{page}/open", page, ("lesson", $"{lesson}")))
        {
            opened.Headers.Location!.ToString().Should().StartWith("/?open=");
            again.Headers.Location.Should().Be(opened.Headers.Location, "it is the same break every time");
        }
        (await shared.Room.LibraryOf(ben).BreaksAsync()).Should().ContainSingle();

        using (await teacher.Post($"{page}/withdraw", page, ("withdrawn", "true")))
        {
            foreach (var address in new[] { page, $"{page}/page", $"{page}/take/handout" })
            {
                using var refused = await pupil.Get(address);
                refused.StatusCode.Should().Be(HttpStatusCode.NotFound, address);
            }
            using var list = await pupil.Get("/class");
            (await list.Content.ReadAsStringAsync()).Should().NotContain($"{lesson}");
        }
        (await shared.Room.LibraryOf(ben).BreaksAsync()).Should().ContainSingle("it is his");
    }

    [Fact]
    public async Task A_break_with_a_lick_of_the_teacher_s_own_comes_home_with_the_lick()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (_, ada) = await shared.Enter("Ada", Role.Teacher);
        var (_, ben) = await shared.Enter("Ben", Role.Pupil);
        var (hers, his) = (shared.Room.LibraryOf(ada), shared.Room.LibraryOf(ben));
        foreach (var name in new[] { "Ada's own, for \"C\"", "another" })
            await hers.AddLickAsync(SharedClass.Lick(name));
        var lesson = await shared.Publish(
            ada,
            wishes: JsonSerializer.Serialize(
                new { level = 3, locks = new[] { "8 lick Ada's own, for \"C\"", "9 rest" } }
            )
        );
        await shared.Room.TakeHomeAsync(ben, lesson);
        (await his.ListLicksAsync()).Select(lick => lick.Name).Should().Equal("Ada's own, for \"C\"");
        await shared.Room.TakeHomeAsync(ben, lesson);
        (await his.ListLicksAsync()).Should().ContainSingle();
    }

    [Fact]
    public async Task Practice_that_is_set_for_one_is_not_seen_by_another_and_progress_is_one_s_own()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (teacher, ada) = await shared.Enter("Ada", Role.Teacher);
        var (pupil, ben) = await shared.Enter("Ben", Role.Pupil);
        var (other, cleo) = await shared.Enter("Cleo", Role.Pupil);
        var lesson = await shared.Publish(ada);
        var page = $"/class/lessons/{lesson}";
        using (
            await teacher.Post(
                $"{page}/practice",
                page,
                ("words", "the first part with a click"),
                ("pupil", ben.Id),
                ("tempo", "70"),
                ("due", "2026-03-09")
            )
        )
        using (var his = await pupil.Get("/class"))
        using (var hers = await other.Get("/class"))
        {
            (await his.Content.ReadAsStringAsync())
                .Should()
                .Contain("the first part with a click")
                .And.Contain("Up to tempo 70, as the lesson counts it")
                .And.Contain("until Mon 9 Mar");
            (await hers.Content.ReadAsStringAsync()).Should().NotContain("the first part with a click");
        }
        var played = await shared.Room.TakeHomeAsync(ben, lesson);
        await shared.Room.LibraryOf(ben).PractiseAsync(played, new(new(2026, 3, 3), 1, 62, 4, 2));
        await shared.Room.LibraryOf(ben).PractiseAsync(played, new(new(2026, 3, 4), 1, 66, 5, 0));
        using (var seen = await teacher.Get($"/class/members/{ben.Id}"))
            (await seen.Content.ReadAsStringAsync()).Should().Contain("1: 66").And.Contain("9 of 11");
        using (var own = await pupil.Get("/class/progress"))
            (await own.Content.ReadAsStringAsync()).Should().Contain("1: 66");
        var peek = () => shared.Room.ProgressAsync(cleo, ben.Id);
        await peek.Should().ThrowAsync<NotForYouException>();
    }

    [Fact]
    public async Task The_room_itself_refuses_a_pupil_whatever_page_asked()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (_, ada) = await shared.Enter("Ada", Role.Teacher);
        var (_, ben) = await shared.Enter("Ben", Role.Pupil);
        var lesson = await shared.Publish(ada);
        var set = await shared.Room.SetPracticeAsync(ada, lesson, null, "slowly", null, null);
        var take = await shared.Room.HandInAsync(ben, lesson, Sound, "wav", "");
        var (room, his) = (shared.Room, await shared.Room.TakeHomeAsync(ben, lesson));
        foreach (
            var ask in new Func<Task>[]
            {
                () => room.MembersAsync(ben),
                () => room.InviteAsync(ben, "Dan", Role.Teacher),
                () => room.NewPasswordAsync(ben, ada.Id),
                () => room.CloseAsync(ben, ada.Id, true),
                () => room.PublishAsync(ben, his, "", []),
                () => room.WithdrawAsync(ben, lesson, true),
                () => room.SetPracticeAsync(ben, lesson, null, "nothing", null, null),
                () => room.UnsetPracticeAsync(ben, set),
                () => room.AnswerAsync(ben, take, "well done"),
                () => room.ProgressAsync(ben, ada.Id),
            }
        )
            await ask.Should().ThrowAsync<NotForYouException>();
        // A teacher does not publish what is another's.
        var another = () => room.PublishAsync(ada, his, "", []);
        await another.Should().ThrowAsync<NotForYouException>();
    }
}
