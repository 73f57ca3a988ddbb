using System.Net;
using Rollwright.Class.People;
using Rollwright.Web.Hosting.Sharing;

namespace Rollwright.Class.Tests;

/// <summary>Every route that the server has, asked for by nobody, a pupil and a teacher.</summary>
public class RoutesTests
{
    private enum For
    {
        Anybody,
        Members,
        Teachers,
    }

    // A route that is not here fails the test: whoever adds one says whom it is for.
    private static readonly Dictionary<string, For> Known = new(StringComparer.Ordinal)
    {
        ["GET /sign-in"] = For.Anybody,
        ["POST /sign-in"] = For.Anybody,
        ["GET /invitation/{secret}"] = For.Anybody,
        ["POST /invitation/{secret}"] = For.Anybody,
        ["GET /health"] = For.Anybody,
        ["GET /assets/workbench.css"] = For.Anybody,
        ["GET /assets/icon.svg"] = For.Anybody,
        ["GET /assets/player/palette.css"] = For.Anybody,
        ["GET /assets/serif-regular.ttf"] = For.Anybody,
        ["GET /assets/serif-bold.ttf"] = For.Anybody,
        ["GET /assets/serif-italic.ttf"] = For.Anybody,
        ["GET /assets/sans-regular.ttf"] = For.Anybody,
        ["GET /assets/sans-bold.ttf"] = For.Anybody,
        ["POST /sign-out"] = For.Members,
        ["GET /class"] = For.Members,
        ["GET /class/progress"] = For.Members,
        ["GET /class/lessons/{id:guid}"] = For.Members,
        ["GET /class/lessons/{id:guid}/page"] = For.Members,
        ["GET /class/lessons/{id:guid}/take/{document}"] = For.Members,
        ["POST /class/lessons/{id:guid}/open"] = For.Members,
        ["POST /class/lessons/{id:guid}/takes"] = For.Members,
        ["GET /class/takes/{id:guid}/sound"] = For.Members,
        ["POST /class/takes/{id:guid}/back"] = For.Members,
        ["GET /class/takes"] = For.Teachers,
        ["POST /class/takes/{id:guid}/answer"] = For.Teachers,
        ["GET /class/members"] = For.Teachers,
        ["POST /class/members/invite"] = For.Teachers,
        ["GET /class/members/{id}"] = For.Teachers,
        ["POST /class/members/{id}/link"] = For.Teachers,
        ["POST /class/members/{id}/close"] = For.Teachers,
        ["POST /class/lessons/{id:guid}/withdraw"] = For.Teachers,
        ["POST /class/lessons/{id:guid}/practice"] = For.Teachers,
        ["POST /class/practice/{id:guid}/unset"] = For.Teachers,
        ["GET /made/{id}/score"] = For.Members,
        ["GET /made/{id}/page/{number:int}"] = For.Members,
        ["GET /made/{id}/{file}"] = For.Members,
        ["GET /lesson/{id}/take/{document}"] = For.Members,
        ["GET /lesson/{id}/everything.zip"] = For.Members,
        ["GET /lesson/{id}/look/{document}"] = For.Members,
        ["POST /take"] = For.Members,
        ["GET /help"] = For.Members,
        ["GET /help/{page}"] = For.Members,
        ["GET /help/pictures/{name}"] = For.Members,
        ["GET /take/demo/{id}"] = For.Members,
    };

    // Pages of the workbench, its scripts, and Blazor's own ways in: for members, whatever the method.
    private static readonly string[] OfTheWorkbench =
    [
        "/",
        "/lesson",
        "/listen",
        "/not-found",
        "/_blazor",
        "/_blazor/negotiate",
        "/_blazor/disconnect/",
        "/_blazor/initializers/",
        "/_framework/opaque-redirect",
        "/_framework/blazor.web.js",
    ];

    [Fact]
    public async Task Every_route_is_open_to_those_it_is_for_and_to_nobody_else()
    {
        await using var shared = await SharedClass.OpenAsync(serving => serving with { HasHealth = true });
        var (teacher, _) = await shared.Enter("Ada", Role.Teacher);
        var (pupil, _) = await shared.Enter("Ben", Role.Pupil);
        var routes = Routes.Of(shared.Workbench).ToList();
        routes.Count.Should().BeGreaterThan(60, "else the walk missed some");
        var wrong = new List<string>();
        foreach (var (method, pattern) in routes)
        {
            if (WhoMay(method, pattern) is not { } may)
            {
                wrong.Add($"{method} {pattern}: nobody said whom it is for");
                continue;
            }
            foreach (
                var (who, guest, isLetIn) in new[]
                {
                    ("nobody", shared.Nobody, may == For.Anybody),
                    ("a pupil", pupil, may != For.Teachers),
                    ("a teacher", teacher, true),
                }
            )
            {
                using var request = new HttpRequestMessage(new(method), Filled(pattern));
                using var answer = await guest.Send(request);
                // Signing out needs the form's token, so that this walk goes on signed in.
                var wasRefused =
                    answer.StatusCode is HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden
                        && !IsTheDoorItself(method, pattern)
                    || answer.Headers.Location?.ToString().Contains("/sign-in", StringComparison.Ordinal) == true;
                if (wasRefused == isLetIn)
                    wrong.Add($"{method} {pattern}, {who}: {(int)answer.StatusCode}");
            }
        }
        wrong.Should().BeEmpty();
        Known
            .Keys.Except(routes.Select(route => $"{route.Method} {route.Pattern}"))
            .Should()
            .BeEmpty("what is listed here is there");
    }

    [Theory]
    [InlineData("/class/nothing")]
    [InlineData("/admin")]
    [InlineData("/made")]
    [InlineData("/.env")]
    public async Task An_address_that_leads_nowhere_is_not_told_from_one_that_does(string path)
    {
        await using var shared = await SharedClass.OpenAsync();
        using var answer = await shared.Nobody.Get(path);
        answer.StatusCode.Should().Be(HttpStatusCode.Redirect);
        answer.Headers.Location!.ToString().Should().Contain("/sign-in?to=");
    }

    [Fact]
    public async Task Health_is_off_unless_it_is_asked_for_and_tells_of_the_database()
    {
        await using var off = await SharedClass.OpenAsync();
        Routes.Of(off.Workbench).Should().NotContain(route => route.Pattern == "/health");
        await using var on = await SharedClass.OpenAsync(serving => serving with { HasHealth = true });
        using var answer = await on.Nobody.Get("/health");
        (await answer.Content.ReadAsStringAsync()).Should().Be("well");
        await Library.Tests.Server.Drop(on.Library.Place.Connection!);
        using var ill = await on.Nobody.Get("/health");
        ill.StatusCode.Should().Be(HttpStatusCode.ServiceUnavailable);
        (await ill.Content.ReadAsStringAsync()).Should().NotContain("Host=", "where it lies is not for everybody");
    }

    private static For? WhoMay(string method, string pattern) =>
        Known.TryGetValue($"{method} {pattern}", out var may) ? may
        : OfTheWorkbench.Contains(pattern) || pattern.StartsWith("/assets/", StringComparison.Ordinal) ? For.Members
        : null;

    // A sign-in without the right password is refused by the page itself; without a token it is a bad request.
    private static bool IsTheDoorItself(string method, string pattern) => method == "POST" && pattern == "/sign-in";

    private static string Filled(string pattern) =>
        Routes.Filled(pattern, place => place.Contains("guid", StringComparison.Ordinal) ? $"{Guid.NewGuid()}" : "1");
}
