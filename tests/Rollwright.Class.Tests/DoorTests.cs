using System.Net;
using Microsoft.EntityFrameworkCore;
using Rollwright.Class.People;
using Rollwright.Web.Hosting.Sharing;

namespace Rollwright.Class.Tests;

/// <summary>Invitations, passwords, locks: the door of a class.</summary>
public class DoorTests
{
    [Fact]
    public async Task There_is_no_account_before_the_first_invitation()
    {
        await using var shared = await SharedClass.OpenAsync();
        await using var context = shared.Room.Open();
        (await context.Users.CountAsync()).Should().Be(0);
        foreach (var (name, password) in new[] { ("admin", "admin"), ("teacher", "password"), ("", "") })
        {
            using var answer = await shared.Nobody.SignIn(name, password);
            answer.StatusCode.Should().Be(HttpStatusCode.Unauthorized);
        }
    }

    [Fact]
    public async Task An_invitation_lets_one_person_in_once()
    {
        await using var shared = await SharedClass.OpenAsync();
        var made = await shared.Room.InviteAsync(null, "Ada", Role.Teacher);
        var path = $"/invitation/{made.Secret}";
        var (first, second) = (shared.Nobody, shared.Nobody);
        // Both have the page open before either answers.
        var answers = await Task.WhenAll(
            first.Post(path, path, ("password", SharedClass.Password), ("again", SharedClass.Password)),
            second.Post(path, path, ("password", "another one altogether"), ("again", "another one altogether"))
        );
        answers.Count(answer => answer.StatusCode == HttpStatusCode.Redirect).Should().Be(1);
        using var again = await shared.Nobody.Get(path);
        again.StatusCode.Should().Be(HttpStatusCode.NotFound);
        await using var context = shared.Room.Open();
        (await context.Users.CountAsync()).Should().Be(1);
        (
            await context
                .Database.SqlQuery<string>($"""SELECT "Digest" AS "Value" FROM class."Invitations" """)
                .ToListAsync()
        )
            .Should()
            .NotContain(made.Secret, "who reads the table cannot use the link");
    }

    [Fact]
    public async Task An_invitation_that_is_too_old_or_made_up_lets_nobody_in()
    {
        var clock = new MovableClock();
        await using var shared = await SharedClass.OpenAsync(clock: clock);
        var made = await shared.Room.InviteAsync(null, "Ada", Role.Teacher);
        clock.Now += Classroom.InvitationLasts + TimeSpan.FromSeconds(1);
        foreach (var secret in new[] { made.Secret, "made-up", "%20", new string('a', 2_000) })
        {
            using var answer = await shared.Nobody.Get($"/invitation/{secret}");
            answer.StatusCode.Should().Be(HttpStatusCode.NotFound, secret);
        }
    }

    [Theory]
    [InlineData("short", "short", "15 characters")]
    [InlineData("wren on the gatepost", "wren on the gatepole", "differ")]
    [InlineData("", "", "15 to 256 characters")]
    public async Task A_password_that_is_not_taken_leaves_the_invitation_good(
        string password,
        string again,
        string words
    )
    {
        await using var shared = await SharedClass.OpenAsync();
        var made = await shared.Room.InviteAsync(null, "Ada", Role.Teacher);
        var path = $"/invitation/{made.Secret}";
        using var answer = await shared.Nobody.Post(path, path, ("password", password), ("again", again));
        answer.StatusCode.Should().Be(HttpStatusCode.UnprocessableEntity);
        (await answer.Content.ReadAsStringAsync()).Should().Contain(words);
        (await shared.Room.InvitationAsync(made.Secret)).Should().NotBeNull();
    }

    [Fact]
    public async Task Five_wrong_passwords_lock_an_account_and_the_page_says_the_same_whatever_was_wrong()
    {
        await using var shared = await SharedClass.OpenAsync();
        await shared.Enter("Ben", Role.Pupil);
        var said = new List<string>();
        for (var tries = 0; tries < SignIn.Tries; tries++)
            said.Add(await Wrong("Ben", "not his password"));
        said.Add(await Wrong("Ben", SharedClass.Password));
        said.Add(await Wrong("Nobody At All", "not anybody's password"));
        said.Distinct().Should().ContainSingle("it says nothing of who is of the class, nor of the lock");

        async Task<string> Wrong(string name, string password)
        {
            using var answer = await shared.Nobody.SignIn(name, password);
            answer.StatusCode.Should().Be(HttpStatusCode.Unauthorized);
            var html = await answer.Content.ReadAsStringAsync();
            return html[
                html.IndexOf("role=\"alert\"", StringComparison.Ordinal)..html.IndexOf(
                    "<form",
                    StringComparison.Ordinal
                )
            ];
        }
    }

    [Fact]
    public async Task A_member_signs_in_goes_where_they_meant_to_and_signs_out()
    {
        await using var shared = await SharedClass.OpenAsync();
        await shared.Enter("Ben", Role.Pupil);
        var guest = shared.Nobody;
        using (var inside = await guest.SignIn("ben", SharedClass.Password, "/listen"))
            inside.Headers.Location!.ToString().Should().Be("/listen");
        using (var page = await guest.Get("/listen"))
            page.StatusCode.Should().Be(HttpStatusCode.OK);
        var cookie = guest.Cookies.GetCookies(new(shared.Workbench.Address))["rollwright"]!;
        cookie.HttpOnly.Should().BeTrue();
        cookie.Expires.Should().Be(DateTime.MinValue, "it ends with the browser unless one asked to stay");
        using (var without = await guest.Send(new(HttpMethod.Post, "/sign-out")))
            without.StatusCode.Should().Be(HttpStatusCode.BadRequest, "another's page cannot sign anybody out");
        using (await guest.Post("/sign-out", "/class", ("from", "")))
        using (var outside = await guest.Get("/listen"))
            outside.Headers.Location!.ToString().Should().Contain("/sign-in");
    }

    [Theory]
    [InlineData("Jürgen Östlund", "jürgen östlund")]
    [InlineData("Zoë", "ZOË")]
    [InlineData("  Ada   Holm ", "ada holm")]
    [InlineData("<b>Ada</b>", "<b>Ada</b>")]
    public async Task A_name_is_what_people_call_each_other(string invited, string typed)
    {
        await using var shared = await SharedClass.OpenAsync();
        var made = await shared.Room.InviteAsync(null, invited, Role.Pupil);
        var path = $"/invitation/{made.Secret}";
        using (var page = await shared.Nobody.Get(path))
            (await page.Content.ReadAsStringAsync()).Should().NotContain("<b>");
        using (
            await shared.Nobody.Post(path, path, ("password", SharedClass.Password), ("again", SharedClass.Password))
        )
        using (var answer = await shared.Nobody.SignIn(typed, SharedClass.Password))
            answer.StatusCode.Should().Be(HttpStatusCode.Redirect);
        var twice = () => shared.Room.InviteAsync(null, typed, Role.Teacher);
        (await twice.Should().ThrowAsync<ClassException>()).WithMessage("*of the class already*");
    }

    [Theory]
    [InlineData("https://evil.example/")]
    [InlineData("//evil.example/")]
    [InlineData("/\\evil.example/")]
    public async Task The_door_leads_to_no_other_house(string to)
    {
        await using var shared = await SharedClass.OpenAsync();
        await shared.Enter("Ben", Role.Pupil);
        using var answer = await shared.Nobody.SignIn("Ben", SharedClass.Password, to);
        answer.Headers.Location!.ToString().Should().Be("/class");
    }

    [Fact]
    public async Task Who_tries_too_often_waits()
    {
        await using var shared = await SharedClass.OpenAsync(serving => serving with { TriesPerMinute = 3 });
        var guest = shared.Nobody;
        var answers = new List<HttpStatusCode>();
        for (var tries = 0; tries < 5; tries++)
        {
            using var answer = await guest.SignIn("Ben", "not his password");
            answers.Add(answer.StatusCode);
        }
        answers.Should().StartWith(HttpStatusCode.Unauthorized).And.EndWith(HttpStatusCode.TooManyRequests);
    }

    [Fact]
    public async Task A_closed_account_is_out_and_comes_back_when_it_is_opened()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (_, ada) = await shared.Enter("Ada", Role.Teacher);
        var (_, ben) = await shared.Enter("Ben", Role.Pupil);
        await shared.Room.CloseAsync(ada, ben.Id, isClosed: true);
        using (var refused = await shared.Nobody.SignIn("Ben", SharedClass.Password))
            refused.StatusCode.Should().Be(HttpStatusCode.Unauthorized);
        await shared.Room.CloseAsync(ada, ben.Id, isClosed: false);
        using (var letIn = await shared.Nobody.SignIn("Ben", SharedClass.Password))
            letIn.StatusCode.Should().Be(HttpStatusCode.Redirect);
        var own = () => shared.Room.CloseAsync(ada, ada.Id, isClosed: true);
        await own.Should().ThrowAsync<NotForYouException>("nobody would be left to open it");
    }

    [Fact]
    public async Task Who_forgot_the_password_gets_a_link_and_the_old_one_is_good_no_longer()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (_, ada) = await shared.Enter("Ada", Role.Teacher);
        var (_, ben) = await shared.Enter("Ben", Role.Pupil);
        for (var tries = 0; tries < SignIn.Tries; tries++)
        {
            using var wrong = await shared.Nobody.SignIn("Ben", "not his password");
        }
        var path = $"/invitation/{(await shared.Room.NewPasswordAsync(ada, ben.Id)).Secret}";
        const string Fresh = "the gatepost has a wren";
        using (var answer = await shared.Nobody.Post(path, path, ("password", Fresh), ("again", Fresh)))
            answer.StatusCode.Should().Be(HttpStatusCode.Redirect);
        using (var old = await shared.Nobody.SignIn("Ben", SharedClass.Password))
            old.StatusCode.Should().Be(HttpStatusCode.Unauthorized);
        using (var fresh = await shared.Nobody.SignIn("Ben", Fresh))
            fresh.StatusCode.Should().Be(HttpStatusCode.Redirect, "the lock of the wrong ones is off");
        (await shared.Room.MembersAsync(ada)).Should().HaveCount(2, "he is who he was");
    }
}
