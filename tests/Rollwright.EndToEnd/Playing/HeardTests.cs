using System.Text.Json;
using Microsoft.Playwright;

namespace Rollwright.EndToEnd.Playing;

/// <summary>What really leaves the page's loudspeaker, and what the page shows meanwhile.</summary>
[Collection(Alone.Name)]
public class HeardTests
{
    // Rolls in even eighths: at half = 40 a note every 0.1875 s.
    private const string Tune = """
        X:1
        T:Slow Gate
        M:2/2
        L:1/8
        Q:1/2=40
        K:G
        |:"G"G2BG d2BG|"C"c2ec "D7"dcBA|"G"G2BG d2BG|"D7"A2F2 "G"G4:|
        """;

    private static async Task<Visitor> Come()
    {
        var visitor = await Visitor.Arrive(tapped: true);
        await visitor.Paste(Tune);
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync("Slow Gate");
        await visitor.Page.Locator(".ledge[data-piece^='Slow Gate'][data-ready]").WaitForAsync();
        return visitor;
    }

    private static ILocator Play(Visitor visitor) =>
        visitor.Page.Locator(".ledge").GetByRole(AriaRole.Button, new() { Name = "Play", Exact = true });

    private static ILocator Stop(Visitor visitor) =>
        visitor.Page.Locator(".ledge").GetByRole(AriaRole.Button, new() { Name = "Stop", Exact = true });

    // Places of the moments at which something is plucked, in seconds from the first, at a tempo.
    private static async Task<(double Seconds, string[] Ids)[]> Moments(Visitor visitor, double perMinute)
    {
        var address = await visitor.Page.Locator(".ledge").GetAttributeAsync("data-ready");
        var text = await visitor.Page.EvaluateAsync<string>("async (a) => (await fetch(a)).text()", address);
        var score = JsonDocument.Parse(text).RootElement;
        var second = 60 / (perMinute * score.GetProperty("tempo").GetProperty("unit").GetDouble());
        return
        [
            .. score
                .GetProperty("parts")[0]
                .GetProperty("strokes")
                .EnumerateArray()
                .GroupBy(stroke => stroke.GetProperty("at").GetDouble())
                .Select(moment =>
                    (
                        moment.Key * second,
                        moment.Select(stroke => $"s-{stroke.GetProperty("of").GetString()}").ToArray()
                    )
                ),
        ];
    }

    [Fact]
    public async Task Notes_leave_the_loudspeaker_at_their_times_and_the_place_in_the_tab_changes_with_them()
    {
        await using var visitor = await Come();
        var moments = await Moments(visitor, 40);
        await Play(visitor).ClickAsync();
        await Task.Delay(6_000);
        await Stop(visitor).ClickAsync();
        await Task.Delay(300);
        var tapped = await Tap.Read(visitor.Page);
        var onsets = tapped.Onsets();
        var first = onsets[0];
        var late = new List<double>();
        foreach (var (seconds, ids) in moments.Where(moment => moment.Seconds < 5))
        {
            var heard = onsets.MinBy(at => Math.Abs(at - first - seconds));
            (heard - first).Should().BeApproximately(seconds, 0.003);
            var shown = tapped.Changes.First(change =>
                change.Ids.Intersect(ids).Any() && Math.Abs(change.At - heard) < 0.2
            );
            late.Add(shown.At - heard);
        }
        late.Should().HaveCountGreaterThan(9);
        // Measured: 8 ms early to 1 ms late. One picture may be missed where the machine does other work.
        late.Order().Skip(1).SkipLast(1).Should().OnlyContain(by => Math.Abs(by) < 0.02);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task What_is_stopped_is_silent_at_once()
    {
        await using var visitor = await Come();
        await visitor.Page.EvaluateAsync(
            "() => document.addEventListener('click', () => { tap.clicked = tap.context?.currentTime; }, true)"
        );
        await Play(visitor).ClickAsync();
        await Task.Delay(2_000);
        await Stop(visitor).ClickAsync();
        await Task.Delay(500);
        var clicked = await visitor.Page.EvaluateAsync<double>("() => tap.clicked");
        var tapped = await Tap.Read(visitor.Page);
        var last = Array.FindLastIndex(tapped.Samples, value => value != 0);
        var silent = ((double)tapped.First + last) / tapped.Rate;
        TestContext.Current.SendDiagnosticMessage($"silent {1000 * (silent - clicked):0.0} ms after the click");
        // The word to the sound thread, one block, and the fade of 5 ms.
        (silent - clicked)
            .Should()
            .BeInRange(0, 0.05);
        visitor.Complaints.Should().BeEmpty();
    }
}
