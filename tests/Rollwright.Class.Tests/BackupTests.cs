using System.IO.Compression;
using System.Net;
using Rollwright.Class.People;
using Rollwright.Library;
using Rollwright.Library.Backups;

namespace Rollwright.Class.Tests;

/// <summary>A class's backup, and moving one person's library into a class and out again.</summary>
public sealed class BackupTests : IDisposable
{
    private static readonly byte[] Sound = [.. "RIFF"u8, .. new byte[40]];

    private readonly string folder = Directory.CreateTempSubdirectory("rollwright-class").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_class_comes_back_whole_on_another_database_and_members_sign_in_with_their_passwords()
    {
        await using var one = await SharedClass.OpenAsync();
        await using var other = await SharedClass.OpenAsync();
        var (_, ada) = await one.Enter("Ada", Role.Teacher);
        var (guest, ben) = await one.Enter("Ben", Role.Pupil);
        var open = await one.Room.InviteAsync(ada, "Dan", Role.Pupil);
        var lesson = await one.Publish(ada);
        await one.Room.SetPracticeAsync(ada, lesson, ben.Id, "slowly", 70, new(2026, 3, 9));
        var take = await one.Room.HandInAsync(ben, lesson, Sound, "wav", "at last");
        await one.Room.AnswerAsync(ada, take, "good");
        var played = await one.Room.TakeHomeAsync(ben, lesson);
        await one.Room.LibraryOf(ben).PractiseAsync(played, new(new(2026, 3, 3), 1, 62, 4, 2));

        var file = Path.Combine(folder, "class.zip");
        Run("library", "backup", file, "--library", one.Library.Place.Connection!)
            .Err.Should()
            .Contain("keep it where nobody else reads it");
        var text = TextOf(file);
        text.Should().NotContain(open.Secret).And.NotContain("<key id=").And.NotContain(SharedClass.Password);
        Run("library", "restore", file, "--library", other.Library.Place.Connection!).Code.Should().Be(0);

        (await other.Room.MembersAsync(ada)).Select(member => member.Name).Should().Equal("Ada", "Ben");
        (await other.Room.LessonsAsync(ben)).Select(found => found.Id).Should().Equal(lesson);
        (await other.Room.DocumentAsync(ben, lesson, "handout")).Bytes.ToArray().Should().Equal([.. "%PDF"u8]);
        (await other.Room.PracticeAsync(ben)).Select(set => set.Words).Should().Equal("slowly");
        (await other.Room.TakesAsync(ada)).Select(found => found.Answer).Should().Equal("good");
        (await other.Room.SoundAsync(ada, take)).Bytes.ToArray().Should().Equal(Sound);
        (await other.Room.ProgressAsync(ada, ben.Id))[0].Phrases[1].Should().Be(62);
        (await other.Room.TakeHomeAsync(ben, lesson)).Should().Be(played, "he goes on with the break that he had");
        using (var back = await other.Nobody.SignIn("Ben", SharedClass.Password))
            back.StatusCode.Should().Be(HttpStatusCode.Redirect);
        (await other.Room.InvitationAsync(open.Secret)).Should().BeNull("nobody comes in by a backup");
        using (var old = other.Nobody)
        {
            foreach (Cookie cookie in guest.Cookies.GetAllCookies())
                old.Cookies.Add(new Uri(other.Workbench.Address), new Cookie(cookie.Name, cookie.Value));
            using var answer = await old.Get("/class");
            answer.Headers.Location!.ToString().Should().Contain("/sign-in", "they sign in anew");
        }
        Run("library", "restore", file, "--library", other.Library.Place.Connection!)
            .Err.Should()
            .Contain("nothing new", "a second time adds nothing");
    }

    [Fact]
    public async Task A_file_moves_into_a_class_as_one_member_s_and_out_again()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (_, ada) = await shared.Enter("Ada", Role.Teacher);
        var (_, ben) = await shared.Enter("Ben", Role.Pupil);
        var (first, second) = (Path.Combine(folder, "one.db"), Path.Combine(folder, "two.db"));
        var tunes = Path.Combine(folder, "tunes.abc");
        await File.WriteAllTextAsync(tunes, "X:1\nT:Wren on the Gatepost\nM:4/4\nL:1/8\nK:G\nGABc dedc|\n");
        Run("library", "import", tunes, "--library", first).Code.Should().Be(0);
        var library = await TuneLibrary.OpenAsync(new(first, null), TimeProvider.System);
        var tune = (await library.TunesAsync(1))[0];
        var played = await library.BeginAsync(tune.Id, "mine", new(Guid.NewGuid(), "begun", "{}", "{}"));
        await library.SaveAsync(played.Id, 1, new(Guid.NewGuid(), "more", "{}", "{}"));
        await library.PractiseAsync(played.Id, new(new(2026, 3, 3), 1, 62, 4, 2));
        await library.AddTakeAsync(played.Id, Sound, "wav", "");

        var server = shared.Library.Place.Connection!;
        Run("library", "move", "--library", first, "--to", server, "--member", "Ada")
            .Err.Should()
            .StartWith("1 tune, 1 break, 1 take moved to");
        (await shared.Room.LibraryOf(ada).TuneAsync(tune.Id)).Should().NotBeNull();
        (await shared.Room.LibraryOf(ben).CountAsync()).Should().Be(0);
        (await library.CountAsync()).Should().Be(1, "the old one is as it was");
        Run("library", "move", "--library", server, "--member", "ada", "--to", second).Code.Should().Be(0);
        var back = await TuneLibrary.OpenAsync(new(second, null), TimeProvider.System);
        (await back.TunesAsync(10)).Should().BeEquivalentTo(await library.TunesAsync(10), Near);
        (await back.RevisionsAsync(played.Id)).Should().BeEquivalentTo(await library.RevisionsAsync(played.Id), Near);
        (await back.PracticeAsync(played.Id)).Should().Equal(await library.PracticeAsync(played.Id));
        var take = (await back.TakesAsync()).Should().ContainSingle().Subject;
        (await back.RecordingAsync(take)).ToArray().Should().Equal(Sound);
    }

    [Fact]
    public async Task Moving_what_cannot_be_moved_says_why()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (_, ada) = await shared.Enter("Ada", Role.Teacher);
        await shared.Publish(ada);
        var (file, server) = (Path.Combine(folder, "one.db"), shared.Library.Place.Connection!);
        Refused(["--library", server, "--to", file], "it is of several people");
        Refused(["--library", file, "--to", server, "--member", "Nobody"], "nobody of the class is called so");
        Refused(["--library", file, "--to", file], "it lies there already");
        Refused(["--library", file, "--to", Path.Combine(folder, "two.db"), "--member", "Ada"], "--member:");

        void Refused(string[] arguments, string words)
        {
            var (code, _, err) = Run(["library", "move", .. arguments]);
            code.Should().Be(2);
            err.Should().Contain(words).And.NotContain("Password=");
            err.Trim().Split('\n').Should().ContainSingle();
        }
    }

    private static (int Code, string Out, string Err) Run(params IEnumerable<string> arguments) =>
        TestKit.Outside.Run("dotnet", [Path.Combine(AppContext.BaseDirectory, "rollwright.dll"), .. arguments]);

    private static string TextOf(string file)
    {
        using var zip = ZipFile.OpenRead(file);
        return string.Concat(
            zip.Entries.Select(entry =>
            {
                using var reader = new StreamReader(entry.Open());
                return reader.ReadToEnd();
            })
        );
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
}
