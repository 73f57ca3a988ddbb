using Microsoft.Playwright;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Playing;

/// <summary>
/// A recorded take on a lesson's page: a short video made by ffmpeg, an outside program, whose bars begin where the file of bar
/// times says.
/// </summary>
public class TakeOnPageTests
{
    // The pickup of the reel and its first four bars: two phrases.
    private const string Times =
        """{"format": "rollwright bar times", "version": 1, "starts": [0.5, 1, 2, 3, 4], "end": 5}""";

    [Fact]
    public async Task The_tab_follows_the_video_phrases_are_its_chapters_and_it_slows_at_its_own_pitch()
    {
        using var place = new Workplace();
        var page = await Open(place, Times);
        var video = page.Locator(".screen video");
        await Assertions.Expect(page.Locator(".chapters button")).ToHaveCountAsync(2);
        var cues = await video.EvaluateAsync<double[]>(
            "take => [...take.textTracks[0].cues].flatMap(cue => [cue.startTime, cue.endTime])"
        );
        cues.Should().Equal(0.5, 3, 3, 5);
        // In the middle of the third bar that is played, bar 2: its fifth step.
        await video.EvaluateAsync("take => new Promise(seen => { take.onseeked = seen; take.currentTime = 2.52; })");
        await page.Locator("section:has(> #whole) .place[data-of*='-s-2-4']").First.WaitForAsync();
        // Where it was sent to: it plays on at once, and a slow machine looks late.
        await video.EvaluateAsync("take => { take.onseeking = () => { window.sentTo = take.currentTime; }; }");
        await page.GetByRole(AriaRole.Button, new() { Name = "Phrase 2", Exact = true }).ClickAsync();
        await page.WaitForFunctionAsync("() => window.sentTo !== undefined");
        (await page.EvaluateAsync<double>("() => window.sentTo")).Should().BeInRange(2.99, 3.05);
        await page.GetByLabel("Speed", new() { Exact = true }).SelectOptionAsync("0.5");
        (await video.EvaluateAsync<bool>("take => take.preservesPitch && take.playbackRate === 0.5")).Should().BeTrue();
        // The player falls silent where the video begins, and the other way round.
        await page.GetByRole(AriaRole.Button, new() { Name = "Play the break" }).ClickAsync();
        await Assertions.Expect(page.Locator(".ledge[data-state='playing']")).ToHaveCountAsync(1);
        (await video.EvaluateAsync<bool>("take => take.paused")).Should().BeTrue();
        await page.ScreenshotAsync(new() { Path = Path.Combine(Places.Pictures, "lesson-video.png") });
        await page.Context.DisposeAsync();
    }

    [Fact]
    public async Task Bars_are_marked_by_hand_and_the_times_saved_are_those_the_command_reads()
    {
        using var place = new Workplace();
        var page = await Open(place, null);
        await page.GetByText("Mark the bars").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Start", Exact = true }).ClickAsync();
        for (var i = 0; i < 4; i++)
        {
            await Task.Delay(400);
            await page.GetByRole(AriaRole.Button, new() { Name = "A bar begins" }).ClickAsync();
        }
        await Assertions.Expect(page.Locator(".chapters button")).ToHaveCountAsync(1);
        var download = await page.RunAndWaitForDownloadAsync(() =>
            page.GetByRole(AriaRole.Button, new() { Name = "Save the times" }).ClickAsync()
        );
        File.Copy(await download.PathAsync(), Path.Combine(place.Folder, "times.json"));
        place
            .RunAlone("lesson", Wren, "-o", "again.html", "--video", "take.webm", "--bar-times", "times.json")
            .Code.Should()
            .Be(0);
        await page.GotoAsync(new Uri(Path.Combine(place.Folder, "again.html")).AbsoluteUri);
        await page.Locator(".ledge[data-ready]").WaitForAsync();
        await Assertions.Expect(page.Locator(".chapters button")).ToHaveCountAsync(1);
        await page.Context.DisposeAsync();
    }

    private static string Wren => Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");

    private static async Task<IPage> Open(Workplace place, string? times)
    {
        var video = Path.Combine(place.Folder, "take.webm");
        string[] made =
        [
            "-v",
            "error",
            "-f",
            "lavfi",
            "-i",
            "testsrc=size=160x90:rate=10:duration=6",
            "-f",
            "lavfi",
            "-i",
            "sine=frequency=392:duration=6",
            "-c:v",
            "libvpx",
            "-b:v",
            "100k",
            "-c:a",
            "libopus",
            video,
        ];
        Outside.Run("ffmpeg", made).Code.Should().Be(0);
        List<string> asked = ["lesson", Wren, "-o", "lesson.html", "--video", "take.webm"];
        if (times is not null)
        {
            await File.WriteAllTextAsync(Path.Combine(place.Folder, "times.json"), times);
            asked.AddRange(["--bar-times", "times.json"]);
        }
        place.RunAlone([.. asked]).Code.Should().Be(0);
        var browser = await Visitor.Browser();
        var context = await browser.NewContextAsync(
            new()
            {
                Offline = true,
                ViewportSize = new() { Width = 1100, Height = 900 },
            }
        );
        var page = await context.NewPageAsync();
        await page.GotoAsync(new Uri(Path.Combine(place.Folder, "lesson.html")).AbsoluteUri);
        await page.Locator(".ledge[data-ready]").WaitForAsync();
        await page.Locator(".screen video")
            .EvaluateAsync(
                "take => take.readyState >= 1 || new Promise(there => { take.onloadedmetadata = () => there(); })"
            );
        return page;
    }
}
