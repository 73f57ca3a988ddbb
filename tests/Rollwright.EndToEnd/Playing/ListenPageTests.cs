using Microsoft.Playwright;
using Rollwright.Audio;
using Rollwright.Audio.Wave;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;
using Rollwright.Sound;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Playing;

/// <summary>A take on the page: sounded by our own string model, decoded by the browser.</summary>
public class ListenPageTests
{
    [Fact]
    public async Task A_take_is_written_out_followed_and_laid_beside_the_break_on_the_bench()
    {
        await using var visitor = await Visitor.Arrive();
        var page = visitor.Page;
        await visitor.Ready();
        var id = await page.Locator(".forms a[download$='.wav']").GetAttributeAsync("href");
        var take = await page.APIRequest.GetAsync(new Uri(new Uri(page.Url), id!).AbsoluteUri);
        await page.GetByRole(AriaRole.Link, new() { Name = "Listen to a take" }).ClickAsync();
        await Give(page, "evening.wav", await take.BodyAsync());
        await Assertions.Expect(page.Locator("#heard-title")).ToHaveTextAsync("evening", new() { Timeout = 90_000 });
        await Assertions.Expect(page.Locator("#heard-summary")).ToContainTextAsync("notes in");
        (await page.Locator("#heard .sheet .wide [id^='s-']").CountAsync()).Should().BeGreaterThan(50);
        (await page.Locator(".forms a[download='evening.pdf']").CountAsync()).Should().Be(1);
        // The tab follows the sound.
        await page.Locator("[data-part='sound']").EvaluateAsync("take => { take.muted = true; return take.play(); }");
        await page.Locator(".heard-now").First.WaitForAsync();
        await page.Locator("[data-part='sound']").EvaluateAsync("take => take.pause()");
        await page.GetByRole(AriaRole.Button, new() { Name = "Was this what I played?" }).ClickAsync();
        await Assertions
            .Expect(page.Locator("#beside-words"))
            .ToContainTextAsync("note", new() { IgnoreCase = true, Timeout = 90_000 });
        await page.ScreenshotAsync(new() { Path = Path.Combine(Places.Pictures, "listen.png"), FullPage = true });
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task The_slips_of_the_demo_take_are_found()
    {
        await using var visitor = await Visitor.Arrive();
        var page = visitor.Page;
        await visitor.CompareDemoTake();
        // Both slips stand above their notes; a repeated bar has them each time through.
        var marks = page.Locator(".meant .wide .take-mark");
        await Assertions.Expect(marks.Filter(new() { HasTextString = "o" })).ToHaveCountAsync(1);
        await Assertions.Expect(marks.Filter(new() { HasTextString = "x" })).ToHaveCountAsync(1);
        await page.ScreenshotAsync(new() { Path = Path.Combine(Places.Pictures, "listen-demo.png"), FullPage = true });
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task What_is_no_sound_or_no_banjo_is_said_in_a_line()
    {
        await using var visitor = await Visitor.Arrive();
        var page = visitor.Page;
        await page.GotoAsync(new Uri(new Uri(page.Url), "listen").AbsoluteUri);
        await page.Locator("#take-file").WaitForAsync();
        await Give(page, "letter.txt", "Dear friend"u8.ToArray());
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("finds no sound in letter.txt");
        await Give(page, "quiet.wav", WavWriter.ToBytes(new Samples(22_050, 1, new float[44_100])));
        await Assertions.Expect(page.Locator("#heard-title")).ToHaveTextAsync("No plucked notes found");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_banjo_is_learnt_from_a_slow_roll_kept_and_chosen_again()
    {
        await using var visitor = await Visitor.Arrive();
        var page = visitor.Page;
        await page.GotoAsync(new Uri(new Uri(page.Url), "listen").AbsoluteUri);
        await Give(page, "roll.wav", WavWriter.ToBytes(Synth.Render(SlowRoll())));
        await Assertions.Expect(page.Locator("#heard-title")).ToHaveTextAsync("roll", new() { Timeout = 90_000 });
        await page.GetByRole(AriaRole.Button, new() { Name = "Learn my banjo from this take" }).ClickAsync();
        var words = page.Locator("#banjo-words");
        await Assertions.Expect(words).ToContainTextAsync("cents", new() { Timeout = 90_000 });
        await Assertions.Expect(words).ToContainTextAsync("How its notes stop was not told");
        var download = await page.RunAndWaitForDownloadAsync(() =>
            page.Locator("a[download='banjo.txt']").ClickAsync()
        );
        var kept = Path.GetTempFileName();
        await download.SaveAsAsync(kept);
        var learnt = await words.InnerTextAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Forget it" }).ClickAsync();
        await Choose(page, await File.ReadAllBytesAsync(kept));
        await Assertions.Expect(words).ToBeVisibleAsync();
        (await words.InnerTextAsync()).Should().Be(learnt);
        File.Delete(kept);
        // What is no banjo is said, and loses nothing that was heard.
        await page.GetByRole(AriaRole.Button, new() { Name = "Forget it" }).ClickAsync();
        await Choose(page, "what | values\nbridge | 2"u8.ToArray());
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("banjo.txt:2");
        await Assertions.Expect(page.Locator("#heard-title")).ToHaveTextAsync("roll");
        visitor.Complaints.Should().BeEmpty();
    }

    private static Task Choose(IPage page, byte[] banjo) =>
        page.Locator("#banjo-file")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "banjo.txt",
                    MimeType = "text/plain",
                    Buffer = banjo,
                }
            );

    // Every open string six times, two notes a second.
    private static Break SlowRoll() =>
        SampleBreaks.Small with
        {
            Tempo = new(new Fraction(1, 2), 30),
            Bars = [.. Enumerable.Repeat(SampleBreaks.Bar("3.0T 2.0I 5.0T 1.0M 4.0T 2.0I 5.0T 1.0M"), 6)],
            Spans = [],
            Tune = null,
        };

    // The page may still be on its way to its script: a person would choose the file again.
    private static async Task Give(IPage page, string name, byte[] bytes)
    {
        await page.Locator(".bench[data-listens]").WaitForAsync();
        await page.Locator("#take-file")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = name,
                    MimeType = "audio/wav",
                    Buffer = bytes,
                }
            );
    }
}
