using System.Globalization;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Rollwright.Banjo.Breaks;
using Rollwright.Class.People;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;
using Rollwright.Web.State;
using Rollwright.Web.State.Sharing;

namespace Rollwright.Class.Tests.Fuzzing;

/// <summary>
/// Every route on odd requests by nobody, a pupil, a teacher, and by whoever has a workbench to themselves: each is answered or its
/// line is closed, none with a fault of the server's, none without end, and the server goes on. <c>bench/fuzz-routes.sh</c> sends as
/// many as it is asked for, from another seed.
/// </summary>
[Collection(Alone)]
[CollectionDefinition(Alone, DisableParallelization = true)]
public partial class EndpointFuzzTests
{
    private const string Alone = "what is logged is this test's alone";

    /// <summary>More than anything that the program makes of the tune here; the largest is its sound.</summary>
    private const int MostBytes = 8_000_000;

    private static readonly int Cases = 600 * Setting("ROLLWRIGHT_FUZZ_TIMES", 1);
    private static readonly int Seed = Setting("ROLLWRIGHT_FUZZ_SEED", 1);

    private static readonly Break Played = SampleBreaks.SmallCapo2;

    [Fact]
    public async Task Every_route_of_a_class_answers_whatever_is_asked_of_it()
    {
        using var complaints = new Complaints();
        await using var shared = await SharedClass.OpenAsync(serving => serving with { HasHealth = true });
        var random = new Random(Seed);
        var members = new Members(shared);
        var known = await members.Come();
        var routes = Routes.Of(shared.Workbench).ToList();
        var odd = new OddRequest(random, known);
        for (var i = 0; i < Cases; i++)
        {
            // Among what is asked is the closing of accounts.
            if (i % 100 == 0)
                await members.ComeAgain();
            var (who, cookies, token) = members.Any(random);
            var (method, pattern) = routes[random.Next(routes.Count)];
            await Try(shared.Workbench, complaints, $"{i}, {who}", odd.To(method, pattern, cookies, token));
        }
        using var health = await shared.Nobody.Get("/health");
        (await health.Content.ReadAsStringAsync()).Should().Be("well");
    }

    [Fact]
    public async Task Every_route_of_one_person_s_workbench_answers_whatever_is_asked_of_it()
    {
        using var complaints = new Complaints();
        await using var workbench = await Workbench.StartAsync(0);
        var made = workbench.Of<Shelf>().Put(Made.Of(Played));
        var routes = Routes.Of(workbench).ToList();
        var random = new Random(Seed);
        var odd = new OddRequest(random, [made.Id]);
        for (var i = 0; i < Cases / 2; i++)
        {
            var (method, pattern) = routes[random.Next(routes.Count)];
            await Try(workbench, complaints, $"{i}", odd.To(method, pattern, "", ""));
        }
        using var person = new Guest(workbench.Address);
        using var page = await person.Get("/");
        page.StatusCode.Should().Be(HttpStatusCode.OK);
        GC.KeepAlive(made);
    }

    private static async Task Try(
        Workbench workbench,
        Complaints complaints,
        string which,
        (byte[] Bytes, bool IsWhole) request
    )
    {
        var reply = await Wire.Send(new(workbench.Address), request.Bytes, request.IsWhole, MostBytes);
        var asked = $"case {which} of seed {Seed}: {Shown(request.Bytes)}";
        if (reply.IsDue)
            reply.Status.Should().BePositive(asked);
        reply.Status.Should().BeLessThan(500, $"{asked}\n{Shown(reply.Bytes)}");
        reply.Bytes.Length.Should().BeLessThanOrEqualTo(MostBytes, asked);
        complaints.Heard.Should().BeEmpty($"{asked}, or one shortly before");
    }

    private static string Shown(byte[] bytes) =>
        Encoding.Latin1.GetString(bytes, 0, Math.Min(bytes.Length, 1_500)).ReplaceLineEndings("⏎");

    private static int Setting(string name, int usual) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), CultureInfo.InvariantCulture, out var value)
            ? value
            : usual;

    /// <summary>A teacher and a pupil with what they have, signed in.</summary>
    private sealed partial class Members(SharedClass shared)
    {
        private readonly List<(string Who, string Cookies, string Token)> here = [("nobody", "", "")];
        private (Guest Guest, Person Person) teacher;
        private (Guest Guest, Person Person) pupil;
        private Made made = null!;
        private int came;

        /// <returns>Names of what is there.</returns>
        public async Task<IReadOnlyList<string>> Come()
        {
            await Enter();
            var lesson = await shared.Publish(teacher.Person);
            var take = await shared.Room.HandInAsync(pupil.Person, lesson, new byte[5_000], "wav", "");
            await shared.Room.SetPracticeAsync(teacher.Person, lesson, null, "slowly", 60, null);
            var practice = (await shared.Room.PracticeAsync(teacher.Person)).Single().Id;
            var link = await shared.Room.InviteAsync(null, "Cleo", Role.Pupil);
            return [$"{lesson}", $"{take}", $"{practice}", pupil.Person.Id, teacher.Person.Id, link.Secret, made.Id];
        }

        /// <summary>Where an account was closed or signed out, others come in its place.</summary>
        public async Task ComeAgain()
        {
            foreach (var guest in new[] { teacher.Guest, pupil.Guest })
            {
                using var answer = await guest.Get("/class");
                if (answer.StatusCode == HttpStatusCode.OK)
                    continue;
                await Enter();
                return;
            }
        }

        public (string Who, string Cookies, string Token) Any(Random random) => here[random.Next(here.Count)];

        private async Task Enter()
        {
            came++;
            teacher = await shared.Enter($"Ada {came}", Role.Teacher);
            pupil = await shared.Enter($"Ben {came}", Role.Pupil);
            here.RemoveRange(1, here.Count - 1);
            foreach (var (guest, person) in new[] { teacher, pupil })
            {
                // Each has the same break on a bench of their own.
                made = shared.Workbench.Of<ForEach<Shelf>>().Of(person.Id).Put(Made.Of(Played));
                using var page = await guest.Get("/class");
                var token = Token().Match(await page.Content.ReadAsStringAsync()).Groups["token"].Value;
                token.Should().NotBeEmpty("the page has the form for signing out");
                here.Add(($"{person.Role}", guest.Cookies.GetCookieHeader(new(shared.Workbench.Address)), token));
            }
        }

        [GeneratedRegex(
            """name="__RequestVerificationToken" value="(?<token>[^"]+)""",
            RegexOptions.ExplicitCapture,
            matchTimeoutMilliseconds: 1000
        )]
        private static partial Regex Token();
    }
}
