using Rollwright.Banjo.Data;
using Rollwright.Banjo.Licks;
using Rollwright.Class.Lessons;
using Rollwright.Class.People;
using Rollwright.Library;
using Rollwright.Library.Kept;
using Rollwright.Library.Tests;
using Rollwright.Web.Hosting;
using Rollwright.Web.Hosting.Sharing;

namespace Rollwright.Class.Tests;

/// <summary>A class on a database of a test's own, served, with a teacher and two pupils; gone when the test is over.</summary>
internal sealed class SharedClass : IAsyncDisposable
{
    public const string Password = "wren on the gatepost";

    private readonly string database;
    private readonly List<IDisposable> browsers = [];

    private SharedClass(string database, TuneLibrary library, Classroom room, Workbench workbench)
    {
        this.database = database;
        (Library, Room, Workbench) = (library, room, workbench);
    }

    public TuneLibrary Library { get; }

    public Classroom Room { get; }

    public Workbench Workbench { get; }

    public Guest Nobody => Opened(new Guest(Workbench.Address));

    public static async Task<SharedClass> OpenAsync(
        Func<ClassServing, ClassServing>? asked = null,
        TimeProvider? clock = null
    )
    {
        var database = await Server.CreateDatabase();
        var library = await TuneLibrary.OpenAsync(new(null, database), TimeProvider.System);
        var room = await Classroom.OpenAsync(library, clock ?? TimeProvider.System);
        var serving = new ClassServing(room) { TriesPerMinute = 10_000 };
        return new(
            database,
            library,
            room,
            await Workbench.StartAsync(0, library, asked is null ? serving : asked(serving))
        );
    }

    /// <summary>Somebody who took up an invitation, in a browser of their own.</summary>
    public async Task<(Guest Guest, Person Person)> Enter(string name, Role role)
    {
        var made = await Room.InviteAsync(null, name, role);
        var guest = Nobody;
        using var answer = await guest.Post(
            $"/invitation/{made.Secret}",
            $"/invitation/{made.Secret}",
            ("password", Password),
            ("again", Password)
        );
        answer.Headers.Location!.ToString().Should().Be("/class");
        var member = (await Room.FindMemberAsync(name))!;
        return (guest, new(member.Id, member.Name, member.Role));
    }

    /// <summary>A lesson that the teacher publishes, of a tune of their own.</summary>
    public async Task<Guid> Publish(Person teacher, string title = "Wren on the Gatepost", string wishes = "{}")
    {
        var theirs = Room.LibraryOf(teacher);
        var tune = new KeptTune(
            Guid.NewGuid(),
            title,
            $"X:1\nT:{title}\nM:4/4\nL:1/8\nK:G\nGABc dedc|\n",
            "G major",
            "4/4",
            "",
            "test",
            [],
            Guid.NewGuid().ToString("N")[..16],
            DateTimeOffset.UnixEpoch
        );
        await theirs.AddAsync([tune]);
        var played = await theirs.BeginAsync(tune.Id, title, new(Guid.NewGuid(), "begun", wishes, "{}"));
        return await Room.PublishAsync(
            teacher,
            played.Id,
            "G major, 4/4",
            [
                new("page", "page.html", "text/html; charset=utf-8", "<!DOCTYPE html><title>page</title>"u8.ToArray()),
                new LessonDocument("handout", "handout.pdf", "application/pdf", "%PDF"u8.ToArray()),
            ]
        );
    }

    public static Lick Lick(string name) =>
        LickBank
            .BuiltIn.Read(
                "test",
                $"{LickRow.Head}\nplain name | fill | open-g | G | - | 2 | twos | 3.0Th2 1.0M 5.0T 2.0I 1.0M 2.0I 5.0T 1.0M\n"
            )
            .Bank.Find("plain name")! with
        {
            Name = name,
        };

    public async ValueTask DisposeAsync()
    {
        browsers.ForEach(browser => browser.Dispose());
        await Workbench.DisposeAsync();
        await Server.Drop(database);
    }

    private Guest Opened(Guest guest)
    {
        browsers.Add(guest);
        return guest;
    }
}
