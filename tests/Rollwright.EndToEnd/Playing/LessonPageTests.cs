using System.Collections.Immutable;
using Microsoft.Playwright;
using Rollwright.Arranging;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Png;
using Rollwright.Formats.Abc;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Page;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Words.Edits;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Playing;

/// <summary>A lesson as a page of one file, opened from the disk: read, heard, changed.</summary>
[Collection(Alone.Name)]
public class LessonPageTests
{
    private static readonly Lazy<Lesson> Wren = new(() => Of("wren-on-the-gatepost"));

    private static Lesson Of(string demo)
    {
        var file = Path.Combine(Places.Root, "data", "demo", $"{demo}.abc");
        var made = Arranger.Arrange(AbcReader.Read(File.ReadAllBytes(file), file).Tunes[0]);
        return Lesson.Of(LessonPlan.Of(made, 3), made);
    }

    [Fact]
    public async Task A_phrase_is_gone_through_again_and_again_slower_if_wished_and_the_place_is_seen()
    {
        var (page, complaints) = await FilePage.Open(LessonPage.Write(Wren.Value));
        await page.GetByLabel("Tempo").FillAsync("150");
        await page.GetByLabel("Tempo").PressAsync("Enter");
        var play = page.Locator("#phrase-2 button");
        await play.ClickAsync();
        await Assertions.Expect(play).ToHaveTextAsync("Stop");
        // Two bars at half = 150 last 1.6 s: in 4 s the phrase has begun again.
        await Task.Delay(4_000);
        await play.ClickAsync();
        await Assertions.Expect(play).ToHaveTextAsync("Play phrase 2");
        await Task.Delay(200);
        var seen = (await Tap.Read(page)).Changes.SelectMany(change => change.Ids).ToList();
        seen.Should().NotBeEmpty();
        // Phrase 2 is bars 3 and 4 of the reel, whose pickup is the first bar written.
        seen.Select(id => id.Split("s-")[1].Split('-')[0]).Distinct().Should().BeEquivalentTo("3", "4");
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }

    [Fact]
    public async Task A_lick_is_put_in_seen_read_and_heard_and_taken_out_again()
    {
        var (plan, swaps) = (Wren.Value.Plan, Wren.Value.Swaps);
        var (page, complaints) = await FilePage.Open(LessonPage.Write(Wren.Value));
        var swap = swaps[0];
        var phrase = page.Locator($"#phrase-{swap.Phrase}");
        var written = await phrase.Locator("[data-version]:visible ul").InnerTextAsync();
        await phrase.GetByLabel($"{swap.Name} ({swap.Where})").CheckAsync();
        await Assertions.Expect(phrase.Locator("[data-version]:visible")).ToHaveCountAsync(1);
        (await phrase.Locator("[data-version]:visible ul").InnerTextAsync()).Should().NotBe(written);
        var bar = swap.ChangedIn(plan.Played)[0];
        // What is drawn for the bar is what the break with the lick has there.
        var frets = await phrase.Locator($"[data-version]:visible .wide [id*='-s-{bar}-'] text").AllTextContentsAsync();
        frets.Should().Equal(swap.Played.Bars[bar].Strokes.Select(stroke => $"{stroke.Fret}"));
        await page.GetByLabel("Tempo").FillAsync("60");
        await page.GetByLabel("Tempo").PressAsync("Enter");
        await phrase.GetByRole(AriaRole.Button).First.ClickAsync();
        await page.Locator($"#phrase-{swap.Phrase} .place[data-of*='-s-{bar}-']")
            .First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await phrase.GetByRole(AriaRole.Button).First.ClickAsync();
        await phrase.GetByLabel("as it is written").CheckAsync();
        (await phrase.Locator("[data-version]:visible ul").InnerTextAsync()).Should().Be(written);
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }

    [Fact]
    public async Task Drills_and_versions_are_heard_with_their_own_place_and_the_break_again_after_them()
    {
        var (page, complaints) = await FilePage.Open(LessonPage.Write(Wren.Value));
        foreach (var piece in new[] { "drill-1-1", "version-1", "behind-1" })
        {
            var button = page.Locator($"button[data-hear='{piece}']");
            await button.ClickAsync();
            await page.Locator($".drawing[data-piece='{piece}'] .place").First.WaitForAsync();
            (await page.Locator(".drawing[data-piece='break'] .place").CountAsync()).Should().Be(0);
            await button.ClickAsync();
        }
        await page.GetByRole(AriaRole.Button, new() { Name = "Play the break" }).ClickAsync();
        await page.Locator(".drawing[data-piece='break'] .place").First.WaitForAsync();
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }

    [Theory]
    [InlineData("lesson-desktop", 1100, ColorScheme.Light)]
    [InlineData("lesson-phone", 390, ColorScheme.Light)]
    [InlineData("lesson-phone-dark", 390, ColorScheme.Dark)]
    public async Task An_outside_judge_finds_nothing_serious_nothing_runs_over_and_its_picture_is_kept(
        string name,
        int width,
        ColorScheme colours
    )
    {
        var (page, complaints) = await FilePage.Open(LessonPage.Write(Wren.Value), width, colours);
        (await page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth"))
            .Should()
            .BeLessThanOrEqualTo(0);
        await page.ScreenshotAsync(new() { Path = Path.Combine(Places.Pictures, $"{name}.png"), FullPage = true });
        await page.EvaluateAsync("document.querySelectorAll('details').forEach(one => one.open = true)");
        (await Axe.Findings(page)).Should().BeEmpty();
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }

    [Fact]
    public async Task Whoever_teaches_speaks_first_with_a_picture_that_the_page_holds()
    {
        var picture = PictureFile.Read(PngWriter.Write(Engraver.Lay(Wren.Value.Plan.Played, PageStyle.A4), 0, 20));
        var lesson = Wren.Value with
        {
            Introduction = new(
                "# Good evening\n\nThis is *ours*. ![the whole page](whole.png)\n",
                ImmutableDictionary<string, PictureFile>.Empty.Add("whole.png", picture)
            ),
        };
        var (page, complaints) = await FilePage.Open(LessonPage.Write(lesson));
        await Assertions.Expect(page.Locator(".own h2")).ToHaveTextAsync("Good evening");
        await Assertions.Expect(page.Locator("h1")).ToHaveCountAsync(1);
        (
            await page.Locator(".own img")
                .EvaluateAsync<int>("picture => picture.decode().then(() => picture.naturalWidth)")
        )
            .Should()
            .Be(picture.Width);
        (await Axe.Findings(page)).Should().BeEmpty();
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }

    [Fact]
    public async Task Markup_in_titles_and_in_a_persons_words_is_shown_as_text()
    {
        const string hostile = "</script><script>document.title='taken'</script><img src=x onerror=alert(1)>";
        var plan = Wren.Value.Plan;
        var edits = LessonText.Empty.With(
            plan.Played,
            1,
            $"Let the **thumb** fall. {hostile} [away](javascript:alert(1))"
        );
        var html = LessonPage.Write(
            Wren.Value with
            {
                Plan = plan with { Tune = plan.Tune with { Title = hostile } },
                Edits = edits,
            }
        );
        var (page, complaints) = await FilePage.Open(html);
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync(hostile);
        await Assertions.Expect(page.Locator("#phrase-1 strong")).ToHaveTextAsync("thumb");
        (await page.TitleAsync()).Should().NotBe("taken");
        (await page.Locator("img").CountAsync()).Should().Be(0);
        (await page.Locator("a[href^='javascript']").CountAsync()).Should().Be(0);
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }

    [Fact]
    public async Task The_command_line_writes_it()
    {
        using var place = new Workplace();
        var tune = Path.Combine(Places.Root, "data", "demo", "lantern-on-the-millrace.abc");
        place.RunAlone("lesson", tune, "-o", "lantern.html").Code.Should().Be(0);
        var (page, complaints) = await FilePage.Open(
            await File.ReadAllTextAsync(Path.Combine(place.Folder, "lantern.html"))
        );
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Lantern on the Millrace");
        await Assertions.Expect(page.Locator("#player-caution")).ToContainTextAsync("audiologist");
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }
}
