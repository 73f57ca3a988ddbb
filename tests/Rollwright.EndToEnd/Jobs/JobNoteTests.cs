using Microsoft.Playwright;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;
using Rollwright.Web.State.Jobs;

namespace Rollwright.EndToEnd.Jobs;

/// <summary>Heavy work as a person sees it on the page: the place in the line, the button that calls it off, and leaving.</summary>
public class JobNoteTests
{
    [Fact]
    public async Task A_person_sees_their_place_calls_it_off_and_leaves_nothing_behind()
    {
        await Visitor.Browser();
        await using var workbench = await Workbench.StartAsync(0);
        await using var visitor = await Visitor.Arrive(at: workbench.Address);
        var page = visitor.Page;
        await visitor.Open("Wren on the Gatepost");
        var over = new TaskCompletionSource<int>(TaskCreationOptions.RunContinuationsAsynchronously);
        for (var place = 0; place < JobBounds.Usual.Places; place++)
            _ = workbench.Of<JobLine>().Run(JobKind.Listening, "somebody else", 1, _ => over.Task);

        var compare = page.GetByRole(AriaRole.Button, new() { Name = "Compare settings and styles" });
        var note = page.Locator(".job-note");
        await compare.ClickAsync();
        await Assertions.Expect(note).ToContainTextAsync("Comparing settings and styles: 1 before you.");
        await page.ScreenshotAsync(new() { Path = Path.Combine(Places.Pictures, "job-note.png") });
        await page.SetViewportSizeAsync(390, 844);
        await page.ScreenshotAsync(new() { Path = Path.Combine(Places.Pictures, "job-note-phone.png") });
        await page.SetViewportSizeAsync(1280, 900);
        (await Axe.Findings(page)).Should().BeEmpty("the note is for readers by ear and by keyboard too");
        (await note.Locator("p").EvaluateAsync<string>("one => getComputedStyle(one).animationName"))
            .Should()
            .Be("none", "this visitor wants no motion");
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        (await note.IsVisibleAsync()).Should().BeFalse("whoever prints meanwhile prints the music");
        await page.EmulateMediaAsync(new() { Media = Media.Screen });
        await note.GetByRole(AriaRole.Button, new() { Name = "Stop comparing settings and styles" }).ClickAsync();
        await Assertions.Expect(note.Locator("p")).ToHaveCountAsync(0);
        await Assertions.Expect(page.GetByText("It was stopped")).ToBeVisibleAsync();

        // A file to take away waits too, and the page of whoever waits for it says so. Edits do not wait.
        await Assertions.Expect(page.Locator(".forms a[download$='.wav']")).ToHaveCountAsync(1);
        _ = page.EvaluateAsync(
            "() => void fetch(document.querySelector(\".forms a[download$='.wav']\").href).catch(() => 0)"
        );
        await Assertions.Expect(note).ToContainTextAsync("Sounding the break: 1 before you.");
        await visitor.ChooseFirstStep();
        var before = await page.Locator(".forms a[download$='.wav']").GetAttributeAsync("href");
        await page.Keyboard.PressAsync("r");
        await Assertions.Expect(page.Locator(".forms a[download$='.wav']")).Not.ToHaveAttributeAsync("href", before!);

        await page.GetByRole(AriaRole.Button, new() { Name = "Compare again" }).ClickAsync();
        await Assertions.Expect(note.Locator("p")).ToHaveCountAsync(2);
        await page.CloseAsync(new() { RunBeforeUnload = true });
        for (var left = 600; left > 0 && !workbench.Of<JobLine>().Of("").IsEmpty; left--)
            await Task.Delay(50);
        workbench.Of<JobLine>().Of("").Should().BeEmpty("who has gone waits for nothing");
        visitor.Complaints.Should().BeEmpty();
        over.SetResult(1);
    }
}
