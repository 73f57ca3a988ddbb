using Microsoft.Playwright;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

public class BenchTests
{
    private const string TwoTunes = """
        X:1
        T:Gate and Gravel
        M:2/2
        L:1/8
        K:G
        |:"G"G2BG d2BG|"C"c2ec "D7"dcBA|"G"G2BG d2BG|"D7"A2F2 "G"G4:|

        X:2
        T:Second Helping
        M:2/2
        L:1/8
        K:D
        |:"D"d2fd a2fd|"A7"e2ce "D"d4:|
        """;

    [Fact]
    public async Task A_visitor_finds_a_demo_tune_arranged_drawn_and_ready_to_play()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Ready();
        await visitor.Page.GetByLabel("One of ours").SelectOptionAsync(new SelectOptionValue { Index = 2 });
        var title = await visitor
            .Page.GetByLabel("One of ours")
            .EvaluateAsync<string>("s => s.selectedOptions[0].text");
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync(title);
        await Assertions.Expect(visitor.Page.Locator("#drawing .wide svg.engraving")).ToBeVisibleAsync();
        (await visitor.Page.Locator("#drawing .wide [id^='s-']").CountAsync()).Should().BeGreaterThan(50);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Play_moves_the_box_from_stroke_to_stroke_and_stop_stops_it()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Ready();
        var box = visitor.Page.Locator("#drawing .place").First;
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Play", Exact = true }).ClickAsync();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < 40 && seen.Count < 4; i++)
        {
            await box.WaitForAsync();
            seen.Add(await box.GetAttributeAsync("data-of") ?? "");
            await Task.Delay(100);
        }
        seen.Should().HaveCountGreaterThanOrEqualTo(4, "the place follows the sound");
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Stop", Exact = true }).ClickAsync();
        await Assertions
            .Expect(visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Play", Exact = true }))
            .ToBeVisibleAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Loop_goes_back_to_the_start_by_itself_and_without_it_the_sound_ends()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Paste(TwoTunes);
        await visitor.Page.GetByLabel("Which of its 2 tunes").SelectOptionAsync("1");
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync("Second Helping");
        await visitor.Page.Locator(".ledge[data-piece^='Second Helping'][data-ready]").WaitForAsync();
        await visitor.Page.GetByLabel("Tempo").FillAsync("400");
        await visitor.Page.GetByLabel("Tempo").PressAsync("Enter");
        await Assertions.Expect(visitor.Page.GetByLabel("Tempo")).ToHaveValueAsync("200");
        var play = visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Play", Exact = true });
        var stop = visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Stop", Exact = true });
        await play.ClickAsync();
        // Four bars at half = 200 last 2.4 s: after 4 s a loop still plays, and what does not loop ends.
        await Task.Delay(4_000);
        await Assertions.Expect(stop).ToBeVisibleAsync();
        await visitor.Page.GetByLabel("Loop").SelectOptionAsync("once through");
        await Assertions.Expect(play).ToBeVisibleAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Every_form_can_be_taken_away_under_the_tunes_name()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Paste(TwoTunes);
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync("Gate and Gravel");
        var starts = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["pdf"] = "%PDF-",
            ["png"] = "\u0089PNG",
            ["svg"] = "<",
            ["musicxml"] = "<?xml",
            ["mxl"] = "PK",
            ["abc"] = "%abc-2.1",
            ["mid"] = "MThd",
            ["html"] = "<!DOCTYPE html>",
            ["wav"] = "RIFF",
            ["opus"] = "OggS",
            ["json"] = "{",
            ["tab"] = "Gate and Gravel",
        };
        foreach (var (ending, start) in starts)
        {
            var download = await visitor.TakeAway(ending);
            download.SuggestedFilename.Should().Be($"gate-and-gravel.{ending}");
            var bytes = await File.ReadAllBytesAsync(await download.PathAsync());
            bytes.Length.Should().BeGreaterThan(200, ending);
            System.Text.Encoding.Latin1.GetString(bytes.AsSpan(0, start.Length)).Should().Be(start);
        }
        starts.Keys.Should().BeEquivalentTo(FileForm.All.Select(form => form.Ending));
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Wrong_abc_is_told_beside_the_text_with_line_and_column_and_the_caret_goes_there()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Paste("X:1\nT:Broken\nM:2/2\nL:1/8\nK:G\nG2BG d2^|\n");
        var problems = visitor.Page.Locator("#text-problems");
        await Assertions.Expect(problems).ToContainTextAsync("line 6, column 8");
        await problems.GetByRole(AriaRole.Button).First.ClickAsync();
        await Assertions.Expect(visitor.Page.GetByLabel("The tune as ABC text")).ToBeFocusedAsync();
        var caret = await visitor.Page.EvalOnSelectorAsync<string>(
            "#abc",
            "box => box.value.slice(0, box.selectionStart).split('\\n').length + ':' + (box.selectionStart - box.value.lastIndexOf('\\n', box.selectionStart - 1))"
        );
        caret.Should().Be("6:8");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Text_without_a_tune_leaves_no_old_break_standing_and_says_what_to_do()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Paste("X:1\nT:Silence\nM:2/2\nL:1/8\nK:G\nz8|z8|\n");
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync("No break yet");
        await Assertions.Expect(visitor.Page.Locator("#text-problems")).ToContainTextAsync("Error");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_file_is_opened_and_the_setting_can_be_asked_for()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Ready();
        await visitor
            .Page.GetByLabel("A file of yours")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "two.abc",
                    MimeType = "text/plain",
                    Buffer = System.Text.Encoding.UTF8.GetBytes(TwoTunes),
                }
            );
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync("Gate and Gravel");
        await visitor.Page.GetByLabel("Capo", new() { Exact = true }).SelectOptionAsync("2");
        await visitor.Page.GetByLabel("Sounding key").SelectOptionAsync("A");
        await Assertions.Expect(visitor.Page.Locator(".setting")).ToContainTextAsync("Sounds in A major");
        await Assertions.Expect(visitor.Page.Locator(".setting")).ToContainTextAsync("capo 2");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_title_that_is_markup_is_shown_as_text()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Paste(
            TwoTunes.Replace(
                "Gate and Gravel",
                "<img src=x onerror=\"document.title='taken'\">",
                StringComparison.Ordinal
            )
        );
        await Assertions.Expect(visitor.Page.Locator("h1")).ToContainTextAsync("<img");
        (await visitor.Page.Locator("main img").CountAsync()).Should().Be(0);
        (await visitor.Page.TitleAsync()).Should().NotBe("taken");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Everything_is_reached_and_worked_from_the_keyboard()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Ready();
        await visitor.Page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(visitor.Page.GetByText("Skip to the break")).ToBeFocusedAsync();
        await visitor.Page.Keyboard.PressAsync("Enter");
        for (var i = 0; i < 40; i++)
        {
            await visitor.Page.Keyboard.PressAsync("Tab");
            if (await visitor.Page.EvaluateAsync<string?>("document.activeElement.dataset.part") == "play")
                break;
        }
        await visitor.Page.Keyboard.PressAsync("Space");
        await Assertions
            .Expect(visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Stop", Exact = true }))
            .ToBeFocusedAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Theory]
    [InlineData(1280, 900)]
    [InlineData(390, 844)]
    [InlineData(320, 640)]
    public async Task Nothing_runs_over_the_edge_of_the_window(int width, int height)
    {
        await using var visitor = await Visitor.Arrive(width, height);
        await visitor.Ready();
        var over = await visitor.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth");
        over.Should().BeLessThanOrEqualTo(0);
        visitor.Complaints.Should().BeEmpty();
    }
}
