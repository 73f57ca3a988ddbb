using System.Net;
using Rollwright.Class.People;
using Rollwright.Library.Tests;

namespace Rollwright.Class.Tests;

/// <summary>The command line of a class, and what stands between it and the network.</summary>
public class ServingTests
{
    private const string Address = "https://banjo.example";

    [Fact]
    public async Task The_first_teacher_comes_in_by_a_link_from_the_command_line()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (code, link, _) = Run(
            "class",
            "invite",
            "--teacher",
            "Ada",
            "--library",
            shared.Library.Place.Connection!,
            "--at",
            shared.Workbench.Address
        );
        code.Should().Be(0);
        var path = new Uri(link.Trim()).AbsolutePath;
        using (
            var answer = await shared.Nobody.Post(
                path,
                path,
                ("password", SharedClass.Password),
                ("again", SharedClass.Password)
            )
        )
            answer.StatusCode.Should().Be(HttpStatusCode.Redirect);
        (await shared.Room.FindMemberAsync("ada"))!.Role.Should().Be(Role.Teacher);
        Run("class", "invite", "--pupil", "Ada", "--library", shared.Library.Place.Connection!)
            .Err.Should()
            .Contain("is of the class already");
    }

    [Theory]
    [InlineData("--class --library FILE", "a class needs a PostgreSQL database")]
    [InlineData("--library FILE --health", "--health: that is for a class")]
    [InlineData("--class --library SERVER --listen 0.0.0.0", "passwords would go over the network as plain text")]
    [InlineData("--class --library SERVER --proxy 10.0.0.1", "--at and --proxy go together")]
    [InlineData("--class --library SERVER --at http://banjo.example --proxy 10.0.0.1", "served over TLS")]
    [InlineData("--class --library SERVER --at https://banjo.example --proxy here", "neither an address nor a network")]
    [InlineData("--class --library SERVER --listen here", "not an address")]
    [InlineData("--class --library SERVER --telemetry here", "not an address")]
    public async Task What_does_not_go_together_is_refused_in_a_line(string arguments, string words)
    {
        var folder = Directory.CreateTempSubdirectory("rollwright-serving").FullName;
        var server = await Server.CreateDatabase();
        var (code, _, err) = Run([
            "serve",
            .. arguments
                .Split(' ')
                .Select(word =>
                    word == "FILE" ? Path.Combine(folder, "library.db")
                    : word == "SERVER" ? server
                    : word
                ),
        ]);
        code.Should().Be(2);
        err.Should().Contain(words);
        err.Trim().Split('\n').Should().ContainSingle();
        await Server.Drop(server);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_proxy_that_is_known_says_who_asks_and_how_and_nobody_else_does()
    {
        await using var known = await SharedClass.OpenAsync(serving =>
            serving with
            {
                Address = new(Address),
                Proxies = [IPNetwork.Parse("127.0.0.1/32")],
            }
        );
        await using var unknown = await SharedClass.OpenAsync(serving =>
            serving with
            {
                Address = new(Address),
                Proxies = [IPNetwork.Parse("192.0.2.1/32")],
            }
        );
        using (var answer = await known.Nobody.Send(Forwarded(HttpMethod.Get, "/sign-in")))
        {
            answer.StatusCode.Should().Be(HttpStatusCode.OK);
            answer.Headers.Should().Contain(header => header.Key == "Strict-Transport-Security");
            answer.Headers.GetValues("Set-Cookie").Should().OnlyContain(cookie => cookie.Contains("secure"));
        }
        // Whoever is not known may say what they like: it is taken for what it is, plain HTTP under another name.
        using (var answer = await unknown.Nobody.Send(Forwarded(HttpMethod.Get, "/sign-in")))
            answer.Headers.Location.Should().Be(new Uri($"{Address}/sign-in"));
        using (var answer = await unknown.Nobody.Send(Forwarded(HttpMethod.Post, "/sign-in")))
            answer.StatusCode.Should().Be(HttpStatusCode.Forbidden);
        // The browser's own word of where it is goes with what the proxy says.
        using (var answer = await known.Nobody.Send(Forwarded(HttpMethod.Post, "/sign-in", Address)))
            answer.StatusCode.Should().Be(HttpStatusCode.BadRequest, "it has no token, but is of this house");
        using (var answer = await known.Nobody.Send(Forwarded(HttpMethod.Post, "/sign-in", "https://evil.example")))
            answer.StatusCode.Should().Be(HttpStatusCode.Forbidden);
    }

    [Fact]
    public async Task A_link_that_a_teacher_makes_is_shown_once_and_lets_a_pupil_in()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (teacher, _) = await shared.Enter("Ada", Role.Teacher);
        using var answer = await teacher.Post(
            "/class/members/invite",
            "/class/members",
            ("name", "Ben"),
            ("role", "pupil")
        );
        var html = await answer.Content.ReadAsStringAsync();
        var start = html.IndexOf(shared.Workbench.Address + "/invitation/", StringComparison.Ordinal);
        var path = new Uri(html[start..html.IndexOf('"', start)]).AbsolutePath;
        using (var again = await teacher.Get("/class/members"))
            (await again.Content.ReadAsStringAsync()).Should().NotContain("/invitation/");
        using (
            await shared.Nobody.Post(path, path, ("password", SharedClass.Password), ("again", SharedClass.Password))
        ) { }
        (await shared.Room.FindMemberAsync("Ben"))!.Role.Should().Be(Role.Pupil);
    }

    [Fact]
    public async Task What_OpenTelemetry_sends_goes_to_the_collector_that_was_asked_for_and_holds_no_invitation()
    {
        using var collector = new Collector();
        string secret;
        await using (
            var shared = await SharedClass.OpenAsync(serving => serving with { Telemetry = collector.Address })
        )
        {
            secret = (await shared.Room.InviteAsync(null, "Ada", Role.Teacher)).Secret;
            using (await shared.Nobody.Get($"/invitation/{secret}"))
            using (await shared.Nobody.Get("/sign-in")) { }
        }
        // What is left is sent when the server stops.
        (await collector.Heard("/sign-in"))
            .Should()
            .NotContain(secret);
    }

    private static HttpRequestMessage Forwarded(HttpMethod method, string path, string? origin = null)
    {
        var request = new HttpRequestMessage(method, path);
        request.Headers.Add("X-Forwarded-For", "198.51.100.7");
        request.Headers.Add("X-Forwarded-Proto", "https");
        request.Headers.Add("X-Forwarded-Host", new Uri(Address).Host);
        if (origin is not null)
            request.Headers.Add("Origin", origin);
        return request;
    }

    private static (int Code, string Out, string Err) Run(params IEnumerable<string> arguments) =>
        TestKit.Outside.Run("dotnet", [Path.Combine(AppContext.BaseDirectory, "rollwright.dll"), .. arguments]);
}
