using Microsoft.Playwright;
using Rollwright.Arranging;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Spots;
using Rollwright.Arranging.Styles;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;
using Rollwright.Web.Words;

namespace Rollwright.EndToEnd;

/// <summary>What a teacher asks of the break at the workbench; prices are those of the arranger asked directly.</summary>
public class AskingTests
{
    private const string Tune = "Wren on the Gatepost";

    private static readonly Lazy<Arrangement> Direct = new(() =>
    {
        var file = Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");
        return Arranger.Arrange(AbcReader.Read(File.ReadAllBytes(file), file).Tunes[0]);
    });

    private static async Task<Visitor> Come(int width = 1280, int height = 900)
    {
        var visitor = await Visitor.Arrive(width, height);
        await visitor.Open(Tune);
        return visitor;
    }

    private static ILocator Button(Visitor visitor, string name) =>
        visitor.Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    private static ILocator Summary(Visitor visitor) => visitor.Page.Locator("#summary");

    [Fact]
    public async Task Style_and_level_are_chosen_and_levels_are_named_by_their_bounds()
    {
        await using var visitor = await Come();
        await visitor.Page.GetByLabel("Style", new() { Exact = true }).SelectOptionAsync("melodic");
        await Assertions.Expect(Summary(visitor)).ToContainTextAsync("Melodic style, level 3");
        await visitor.Page.GetByLabel("Level", new() { Exact = true }).SelectOptionAsync("5");
        await Assertions.Expect(Summary(visitor)).ToContainTextAsync("Melodic style, level 5");
        var names = await visitor.Page.Locator("#level option").AllTextContentsAsync();
        for (var level = LevelTable.Lowest; level <= LevelTable.Highest; level++)
            names[level - LevelTable.Lowest].Should().Contain($"frets to {LevelTable.Of(level).Bounds.HighestFret}");
        (await visitor.Page.Locator("#style option").AllTextContentsAsync())
            .Should()
            .Contain(StyleTable.Solo.Select(style => style.Name));
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Settings_that_were_tried_are_offered_and_one_click_takes_one()
    {
        await using var visitor = await Come();
        var offers = visitor.Page.GetByRole(AriaRole.List, new() { Name = "Settings, the best first" });
        await Assertions.Expect(offers.Locator("[aria-current]")).ToContainTextAsync("(shown)");
        var other = offers.GetByRole(AriaRole.Button).First;
        var name = await other.GetAttributeAsync("aria-label");
        await other.ClickAsync();
        var shown = visitor.Page.Locator(".ways [aria-current]");
        await Assertions.Expect(shown).ToContainTextAsync(name!["Take it: ".Length..]);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Advice_ranks_the_ways_with_what_is_kept_and_one_click_takes_one()
    {
        await using var visitor = await Come();
        await Button(visitor, "Compare settings and styles").ClickAsync();
        await Assertions.Expect(visitor.Page.Locator(".sentences")).ToContainTextAsync("%");
        var ways = visitor.Page.GetByRole(AriaRole.List, new() { Name = "Ways to play it, the best first" });
        await Assertions.Expect(ways.Locator("li").First).ToContainTextAsync("% of the tune");
        var before = await Summary(visitor).InnerTextAsync();
        await ways.GetByRole(AriaRole.Button).Filter(new() { HasText = "Take it" }).Last.ClickAsync();
        await Assertions.Expect(ways.Locator("li[aria-current]")).ToContainTextAsync("(shown)");
        await Assertions.Expect(Summary(visitor)).Not.ToHaveTextAsync(before);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Versions_differ_and_another_one_differs_again()
    {
        await using var visitor = await Come();
        await visitor.Page.GetByLabel("What is played").SelectOptionAsync("up-the-neck");
        await Assertions.Expect(Summary(visitor)).ToContainTextAsync("up the neck");
        await Assertions.Expect(Summary(visitor)).ToContainTextAsync("% of the steps differ");
        var first = await visitor.Page.Locator(".ledge").GetAttributeAsync("data-ready");
        await Button(visitor, "Another one of these").ClickAsync();
        await Assertions.Expect(Summary(visitor)).ToContainTextAsync("the second");
        await Assertions.Expect(visitor.Page.Locator(".ledge")).Not.ToHaveAttributeAsync("data-ready", first!);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_part_behind_someone_else_is_made_and_the_break_comes_back()
    {
        await using var visitor = await Come();
        foreach (var (value, words) in new[] { ("Rolls", "Rolls behind"), ("Vamp", "A vamp behind") })
        {
            await visitor.Page.GetByLabel("What is played").SelectOptionAsync(value);
            await Assertions.Expect(Summary(visitor)).ToContainTextAsync(words);
        }
        await visitor.ChooseFirstStep();
        await Assertions.Expect(visitor.Page.Locator("#step-note")).ToContainTextAsync("taken as a whole");
        await visitor.Page.GetByLabel("What is played").SelectOptionAsync("");
        await Assertions.Expect(Summary(visitor)).ToContainTextAsync("Roll style");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Repeats_are_written_out_and_vary()
    {
        await using var visitor = await Come();
        var written = await visitor.Page.Locator("#drawing").GetAttributeAsync("aria-valuemax");
        await visitor.Page.GetByLabel("Repeats").SelectOptionAsync("40");
        await visitor.Settled();
        var steps = visitor.Page.Locator("#drawing");
        await Assertions.Expect(steps).ToHaveAttributeAsync("aria-valuemax", $"{2 * int.Parse(written!)}");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_lick_is_put_into_a_spot_at_the_price_that_was_said_and_undo_takes_it_out()
    {
        const int within = 6000;
        var spots = Direct.Value.Spots(within);
        var (spot, fit) = FirstDearer(spots);
        var dearer = Direct.Value.With(new LickLock(fit.Place)).Cost - Direct.Value.Cost;
        dearer.Should().Be(fit.Whole);

        await using var visitor = await Come();
        await visitor.Page.GetByLabel("A lick may make the break dearer by").SelectOptionAsync($"{within}");
        var rows = visitor.Page.Locator(".spots tbody tr");
        await Assertions.Expect(rows).ToHaveCountAsync(spots.Length);
        await rows.Nth(spots.IndexOf(spot)).GetByRole(AriaRole.Button).ClickAsync();
        var lick = visitor.Page.Locator(".licks li").Filter(new() { HasText = fit.Place.Lick.Name }).First;
        await Assertions
            .Expect(lick)
            .ToContainTextAsync($"{PriceWords.Dearer(fit.Price)} ({PriceWords.Notes(fit.Price)})");
        await Assertions.Expect(visitor.Page.Locator(".wide .open-spot")).ToHaveCountAsync(1);
        await lick.GetByRole(AriaRole.Button, new() { Name = "Put it in" }).ClickAsync();

        var kept = visitor.Page.Locator(".kept-list li");
        await Assertions.Expect(kept).ToContainTextAsync($"the lick '{fit.Place.Lick.Name}'");
        await Assertions.Expect(visitor.Page.Locator(".licks")).ToContainTextAsync("in the break now");
        await Button(visitor, "Undo").ClickAsync();
        await Assertions.Expect(kept).ToHaveCountAsync(0);
        await Button(visitor, "Redo").ClickAsync();
        await Assertions.Expect(kept).ToHaveCountAsync(1);
        visitor.Complaints.Should().BeEmpty();
    }

    private static (Spot Spot, LickFit Fit) FirstDearer(IEnumerable<Spot> spots) =>
        spots.SelectMany(spot => spot.Best.Select(fit => (spot, fit))).First(pair => pair.fit.Price > 0);

    [Fact]
    public async Task A_click_on_a_note_says_why_it_is_so_and_what_the_next_best_would_cost()
    {
        var step = Enumerable
            .Range(0, Direct.Value.Grid.Steps.Length)
            .First(at => Direct.Value.Reasons[at].RunnerUp is not null && Direct.Value.PathAt(at).Sound != 0);
        var reason = Direct.Value.Reasons[step];
        var place = Direct.Value.Grid.Steps[step];
        var index = Direct
            .Value.Break.Bars[place.Bar]
            .Strokes.Select((stroke, at) => (stroke, at))
            .First(pair => pair.stroke.At == place.At)
            .at;

        await using var visitor = await Come();
        await visitor.Page.Locator($"#s-{place.Bar}-{index}").ClickAsync();
        var note = visitor.Page.Locator("#step-note");
        await Assertions.Expect(note).ToContainTextAsync(PlaceWords.Capital(PlaceWords.Of(Direct.Value.Grid, step)));
        await Assertions.Expect(note).ToContainTextAsync(StepSentences.Done(reason));
        await Assertions.Expect(note).ToContainTextAsync($"({PriceWords.Notes(reason.RunnerUp!.Price)})");
        await note.GetByText("What it costs").ClickAsync();
        foreach (var (term, _) in reason.Terms)
            await Assertions.Expect(note.Locator(".terms")).ToContainTextAsync(TermWords.Meaning(term));

        await Button(visitor, "Play the next best").ClickAsync();
        var other = PlaceWords.Capital(Rollwright.Arranging.Reasons.StepWords.Of(reason.RunnerUp.Done));
        await Assertions.Expect(note.Locator(".why strong").First).ToHaveTextAsync($"{other}.");
        await Assertions.Expect(visitor.Page.Locator(".kept-list li")).ToHaveCountAsync(1);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task The_keyboard_goes_step_by_step_keeps_lets_go_and_undoes()
    {
        await using var visitor = await Come();
        await visitor.ChooseFirstStep();
        var drawing = visitor.Page.Locator("#drawing");
        await Assertions.Expect(drawing).ToHaveAttributeAsync("aria-valuenow", "1");
        await visitor.Page.Keyboard.PressAsync("ArrowRight");
        await Assertions.Expect(drawing).ToHaveAttributeAsync("aria-valuenow", "2");
        await visitor.Page.Keyboard.PressAsync("PageDown");
        await Assertions.Expect(visitor.Page.Locator("#step-heading")).ToContainTextAsync("Bar 1");
        await visitor.Page.Keyboard.PressAsync("Enter");
        for (var i = 0; i < 8 && await Focused(visitor) != "Rest here"; i++)
            await visitor.Page.Keyboard.PressAsync("Tab");
        await visitor.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(visitor.Page.Locator(".why strong").First).ToHaveTextAsync("Silence.");
        await Assertions.Expect(visitor.Page.Locator(".wide .kept")).ToHaveCountAsync(1);
        await visitor.Page.Keyboard.PressAsync("Control+z");
        await Assertions.Expect(visitor.Page.Locator(".wide .kept")).ToHaveCountAsync(0);
        await visitor.Page.Keyboard.PressAsync("Control+y");
        await Assertions.Expect(visitor.Page.Locator(".wide .kept")).ToHaveCountAsync(1);
        await visitor
            .Page.Locator("#step-note")
            .GetByRole(AriaRole.Button, new() { Name = "Let it go" })
            .PressAsync("Enter");
        await Assertions.Expect(visitor.Page.Locator(".wide .kept")).ToHaveCountAsync(0);
        await drawing.FocusAsync();
        await visitor.Page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(visitor.Page.Locator("#step-note")).ToHaveCountAsync(0);
        visitor.Complaints.Should().BeEmpty();
    }

    private static Task<string> Focused(Visitor visitor) =>
        visitor.Page.EvaluateAsync<string>("document.activeElement.textContent.trim()");

    [Fact]
    public async Task A_slur_is_forbidden_at_its_step()
    {
        var step = Enumerable
            .Range(0, Direct.Value.Grid.Steps.Length)
            .First(at => Direct.Value.PathAt(at).SlurString != 0);
        await using var visitor = await Come();
        await visitor.ChooseFirstStep();
        for (var i = 0; i < step; i++)
            await visitor.Page.Keyboard.PressAsync("ArrowRight");
        await Button(visitor, "No slur here").ClickAsync();
        await Assertions.Expect(visitor.Page.Locator(".kept-list li")).ToContainTextAsync("no slur");
        await Assertions.Expect(Button(visitor, "No slur here")).ToHaveCountAsync(0);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task What_hands_cannot_keep_together_is_told_in_one_line_where_it_was_asked_and_nothing_is_lost()
    {
        await using var visitor = await Come();
        var box = visitor.Page.GetByLabel("Keep something else");
        await box.FillAsync("2/1 note 1.2T");
        await box.PressAsync("Enter");
        await Assertions.Expect(visitor.Page.Locator(".kept-list li")).ToHaveCountAsync(1);
        await box.FillAsync("2/1 rest");
        await box.PressAsync("Enter");
        var refusal = visitor.Page.Locator("#ask-refusal li");
        await Assertions.Expect(refusal).ToHaveCountAsync(1);
        await Assertions.Expect(refusal).ToContainTextAsync("Bar 2, beat 1");
        await Assertions.Expect(refusal).ToContainTextAsync("take one of them away");
        await Assertions.Expect(box).ToHaveValueAsync("2/1 rest");
        await Assertions.Expect(visitor.Page.Locator(".kept-list li")).ToHaveCountAsync(1);
        await Assertions.Expect(visitor.Page.Locator("#drawing .wide svg.engraving")).ToBeVisibleAsync();

        await box.FillAsync("99 rest");
        await box.PressAsync("Enter");
        await Assertions.Expect(refusal).ToContainTextAsync("there is no bar 99");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_setting_that_has_no_way_is_refused_with_line_and_place_and_one_click_leads_back()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Paste("X:7\nT:Over the Roof\nM:2/2\nL:1/8\nK:G\nG2BG d2g'2|c''4 c''4|e''8|e''8|\n");
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync("Over the Roof");
        await visitor.Page.GetByLabel("Tuning", new() { Exact = true }).SelectOptionAsync("open-d");
        await visitor.Page.GetByLabel("Capo", new() { Exact = true }).SelectOptionAsync("12");
        await visitor.Page.GetByLabel("Level", new() { Exact = true }).SelectOptionAsync("1");
        await visitor.Settled();
        var problem = visitor.Page.Locator("#wish-problems li");
        await Assertions.Expect(problem).ToContainTextAsync("line 1, column 1");
        await Assertions.Expect(problem).ToContainTextAsync("capo 12");
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync("No break yet");
        await Assertions.Expect(visitor.Page.Locator("#capo")).ToHaveAttributeAsync("aria-invalid", "true");
        await Button(visitor, "Let key, tuning, capo and octave be chosen").ClickAsync();
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync("Over the Roof");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Another_level_keeps_the_locks_that_make_sense_and_says_in_one_line_which_it_let_go()
    {
        await using var visitor = await Come();
        var box = visitor.Page.GetByLabel("Keep something else");
        var kept = visitor.Page.Locator(".kept-list li");
        foreach (var (text, count) in new[] { ("1/2 rest", 1), ("5/1 note 2.8", 2) })
        {
            await box.FillAsync(text);
            await box.PressAsync("Enter");
            await Assertions.Expect(kept).ToHaveCountAsync(count);
        }
        await visitor.Page.GetByLabel("Level", new() { Exact = true }).SelectOptionAsync("1");
        await Assertions.Expect(kept).ToHaveCountAsync(1);
        await Assertions.Expect(kept).ToContainTextAsync("Bar 1, beat 2");
        await Assertions
            .Expect(visitor.Page.Locator("#let-go"))
            .ToContainTextAsync("Let go: bar 5, beat 1: string 2 fret 8 (hands cannot do it now).");
        await visitor.Page.GetByLabel("Style", new() { Exact = true }).SelectOptionAsync("melodic");
        await Assertions.Expect(Summary(visitor)).ToContainTextAsync("Melodic style, level 1");
        await Assertions.Expect(kept).ToHaveCountAsync(1);
        await Assertions.Expect(visitor.Page.Locator("#let-go")).ToBeEmptyAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task The_comparison_shows_every_style_at_once_and_then_the_whole_ranking_as_it_is()
    {
        var file = Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");
        var advice = Arranger.Advise(AbcReader.Read(File.ReadAllBytes(file), file).Tunes[0]);
        await using var visitor = await Come();
        await Button(visitor, "Compare settings and styles").ClickAsync();
        var rows = visitor
            .Page.GetByRole(AriaRole.List, new() { Name = "Ways to play it, the best first" })
            .Locator("li strong");
        await Assertions.Expect(rows).ToHaveCountAsync(StyleTable.Solo.Count());
        var styles = await rows.AllInnerTextsAsync();
        styles
            .Select(row => row.Split(' ')[0].ToLowerInvariant())
            .Should()
            .BeEquivalentTo(StyleTable.Solo.Select(style => style.Name));
        await Button(visitor, $"Show all {advice.Ways.Length} ways as they are ranked").ClickAsync();
        await Assertions.Expect(rows).ToHaveCountAsync(advice.Ways.Length);
        (await rows.AllInnerTextsAsync())
            .Should()
            .Equal(advice.Ways.Select(way => $"{PlaceWords.Capital(way.Style)} style: {SettingWords.Of(way.Setting)}"));
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task The_octave_of_the_melody_is_asked_for()
    {
        await using var visitor = await Come();
        await visitor.Page.GetByLabel("Octave", new() { Exact = true }).SelectOptionAsync("0");
        await Assertions.Expect(visitor.Page.Locator(".setting")).ToContainTextAsync("at the fiddle's pitch");
        await visitor.Page.GetByLabel("Octave", new() { Exact = true }).SelectOptionAsync("-2");
        await Assertions
            .Expect(visitor.Page.Locator("#wish-problems li"))
            .ToContainTextAsync("2 octaves below the fiddle");
        await Button(visitor, "Let key, tuning, capo and octave be chosen").ClickAsync();
        await Assertions.Expect(visitor.Page.Locator(".setting")).ToContainTextAsync("an octave below the fiddle");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task The_terms_add_up_to_the_price_of_the_whole()
    {
        await using var visitor = await Come();
        await visitor.Page.GetByText("The price of the whole, term by term").ClickAsync();
        await Assertions
            .Expect(visitor.Page.Locator("main > .card .terms .sum .number"))
            .ToHaveTextAsync(PriceWords.Notes(Direct.Value.Cost));
        visitor.Complaints.Should().BeEmpty();
    }

    [Theory]
    [InlineData(1280)]
    [InlineData(390)]
    [InlineData(320)]
    public async Task Everything_has_a_name_no_choice_is_cut_off_and_nothing_runs_over_the_edge(int width)
    {
        await using var visitor = await Come(width, 844);
        await visitor.Page.GetByLabel("A lick may make the break dearer by").SelectOptionAsync("6000");
        await visitor.Page.Locator(".spots button").First.ClickAsync();
        await visitor.ChooseFirstStep();
        await visitor.Page.GetByLabel("Loop").SelectOptionAsync("marked bars");
        await visitor.Page.GetByText("Count-in, band, hands").ClickAsync();
        (await visitor.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth"))
            .Should()
            .BeLessThanOrEqualTo(0);
        // Whatever may be chosen is measured in the box's own type; chromium keeps about 20 px for the arrow.
        var cut = await visitor.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll("select")].flatMap(select => {
              const style = getComputedStyle(select);
              const pen = document.createElement("canvas").getContext("2d");
              pen.font = style.font;
              const room = select.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight) - 20;
              return [...select.options].filter(option => pen.measureText(option.text).width > room)
                .map(option => `${select.id}: ${option.text}`);
            })
            """
        );
        cut.Should().BeEmpty();
        var nameless = await visitor.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll("button, select, input, textarea, a[href], [role='slider']")]
              .filter(one => !(one.getAttribute("aria-label") || one.textContent.trim() && one.matches("button, a") || one.labels?.length))
              .map(one => one.outerHTML.slice(0, 120))
            """
        );
        nameless.Should().BeEmpty();
        visitor.Complaints.Should().BeEmpty();
    }
}
