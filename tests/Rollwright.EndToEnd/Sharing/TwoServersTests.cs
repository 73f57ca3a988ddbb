using Microsoft.Playwright;
using Rollwright.Class;
using Rollwright.Class.People;
using Rollwright.Library;
using Rollwright.Library.Kept;
using Rollwright.Library.Tests;

namespace Rollwright.EndToEnd.Sharing;

/// <summary>
/// Two processes of the real program serve one class from one database; people edit on both; one is killed. Nothing that a page
/// said was kept is lost, the other goes on, and whoever sat at the dead one goes on there, still signed in.
/// </summary>
[Collection(Alone.Name)]
public class TwoServersTests
{
    [Fact]
    public async Task One_of_two_servers_is_killed_and_the_other_goes_on_with_all_that_was_kept()
    {
        await Visitor.Browser();
        var database = await Server.CreateDatabase();
        try
        {
            // Both at once, on a database where nothing is yet.
            var started = await Task.WhenAll(
                ServedProgram.Start(database, "--class"),
                ServedProgram.Start(database, "--class")
            );
            using var first = started[0];
            using var second = started[1];
            var library = await TuneLibrary.OpenAsync(new(null, database), TimeProvider.System);
            var room = await Classroom.OpenAsync(library, TimeProvider.System);
            await using var ada = await ClassDoor.Enter(room, first.Address, "Ada", Role.Teacher);
            await using var ben = await ClassDoor.Enter(room, second.Address, "Ben", Role.Pupil);
            await Begin(ada, first.Address);
            await Begin(ben, second.Address);

            using var over = new CancellationTokenSource();
            using var onlyAda = new CancellationTokenSource();
            var adas = KilledServerTests.Type(ada.Page, 1, onlyAda.Token);
            var bens = KilledServerTests.Type(ben.Page, 2, over.Token);
            await Said(ada.Page, 3);
            await Said(ben.Page, 3);
            first.Kill();
            await onlyAda.CancelAsync();
            await adas;
            var adaSaid = await Read(ada.Page);
            // The other goes on as if nothing had been.
            var before = (await Read(ben.Page)).Length;
            await Said(ben.Page, before + 2);
            await over.CancelAsync();
            await bens;
            await Assertions.Expect(ben.Page.Locator(".keep-line")).ToHaveTextAsync("Kept.");
            await Hold(library, room, "Ada", adaSaid);
            await Hold(library, room, "Ben", await Read(ben.Page));

            // She comes to the other server: the sign-in of the dead one is good there, and so is what she kept.
            var (kept, shown) = await Kept(library, room, "Ada");
            await ada.Page.GotoAsync($"{second.Address}/?open={kept.Id}");
            await ada.Ready();
            await ada.Page.Locator($"a[href^='/made/{KeptBreaks.NameOf(shown)}/']").First.WaitForAsync();
            await ada.Settled();
            await ada.Page.EvaluateAsync(KilledServerTests.Listen);
            using var overAgain = new CancellationTokenSource();
            await ada.Page.Locator("#drawing").FocusAsync();
            var again = KilledServerTests.Type(ada.Page, 3, overAgain.Token);
            await Said(ada.Page, 3);
            await overAgain.CancelAsync();
            await again;
            await Assertions.Expect(ada.Page.Locator(".keep-line")).ToHaveTextAsync("Kept.");
            await Hold(library, room, "Ada", [.. adaSaid, .. await Read(ada.Page)]);
        }
        finally
        {
            await Server.Drop(database);
        }
    }

    // A tune lies on the bench of whoever comes for the first time.
    private static async Task Begin(Visitor visitor, string address)
    {
        await visitor.Page.GotoAsync(address);
        await visitor.Ready();
        await visitor.Open("Wren on the Gatepost");
        await Assertions.Expect(visitor.Page.Locator(".keep-line")).ToHaveTextAsync("Kept.");
        await visitor.Page.EvaluateAsync(KilledServerTests.Listen);
        await visitor.Page.Locator("#drawing").FocusAsync();
    }

    // So many states that the page said were kept, however long the machine takes for them.
    private static async Task Said(IPage page, int many)
    {
        for (var left = 2_400; left > 0 && await page.EvaluateAsync<int>("() => window.said.length") < many; left--)
            await Task.Delay(50);
        (await page.EvaluateAsync<int>("() => window.said.length")).Should().BeGreaterThanOrEqualTo(many);
    }

    // What the last message from the server drew is drawn by then.
    private static Task<string[]> Read(IPage page) =>
        page.EvaluateAsync<string[]>("() => new Promise(done => setTimeout(() => done(window.said), 100))");

    private static async Task Hold(TuneLibrary library, Classroom room, string name, IReadOnlyList<string> said)
    {
        // What is shown first: keys that are still on their way add to the revisions, and take none away.
        var (kept, shown) = await Kept(library, room, name);
        var theirs = library.For((await room.FindMemberAsync(name))!.Id);
        KeptBreaks.Hold(await theirs.RevisionsAsync(kept.Id), shown, said);
    }

    private static async Task<(KeptBreak Kept, Revision Shown)> Kept(TuneLibrary library, Classroom room, string name)
    {
        var theirs = library.For((await room.FindMemberAsync(name))!.Id);
        var kept = (await theirs.BreaksAsync()).First(kept => kept.Title.Contains("Wren", StringComparison.Ordinal));
        return (kept, (await theirs.CurrentAsync(kept.Id))!);
    }
}
