using System.IO.Compression;
using Microsoft.Playwright;
using Rollwright.Lessons.Outputs;
using Rollwright.Library;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;

namespace Rollwright.EndToEnd;

/// <summary>The lesson of the break on the bench: read, said in one's own words, taken away.</summary>
public sealed class LessonDeskTests
{
    private const string Own = "Let the *thumb* fall; <b>nothing</b> else moves.";

    [Theory]
    [InlineData("lesson-desk", 1280, ColorScheme.Light)]
    [InlineData("lesson-desk-phone-dark", 390, ColorScheme.Dark)]
    public async Task From_the_break_to_its_lesson_with_a_phrase_in_ones_own_words_and_all_documents(
        string name,
        int width,
        ColorScheme colours
    )
    {
        await using var visitor = await Visitor.Arrive(width, 900, colours);
        await visitor.Open("Wren on the Gatepost");
        var page = visitor.Page;
        await page.GetByRole(AriaRole.Link, new() { Name = "Teach it" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Wren on the Gatepost");
        await page.GetByRole(AriaRole.Button, new() { Name = "Say it in your own words for phrase 1" }).ClickAsync();
        await page.GetByLabel("Words for phrase 1, in Markdown").FillAsync(Own);
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep these words" }).ClickAsync();
        await Assertions.Expect(page.Locator(".said li").First).ToHaveTextAsync(Own);
        (await Axe.Findings(page)).Should().BeEmpty();
        (await page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth"))
            .Should()
            .BeLessThanOrEqualTo(0);
        await page.ScreenshotAsync(new() { Path = Path.Combine(Places.Pictures, $"{name}.png"), FullPage = true });

        var download = await page.RunAndWaitForDownloadAsync(() =>
            page.GetByRole(AriaRole.Link, new() { Name = "Everything" }).ClickAsync()
        );
        using var zip = ZipFile.OpenRead(await download.PathAsync());
        zip.Entries.Select(entry => entry.FullName)
            .Should()
            .Contain(["page/index.html", "handout.pdf", "captions.vtt"]);
        var shown = await page.Context.RunAndWaitForPageAsync(() =>
            page.GetByRole(AriaRole.Link, new() { Name = "Look at the page that plays" }).ClickAsync()
        );
        await shown.Locator(".ledge[data-ready]").WaitForAsync();
        await Assertions.Expect(shown.Locator("#phrase-1 em")).ToHaveTextAsync("thumb");
        (await shown.Locator("#phrase-1 b").CountAsync()).Should().Be(0, "markup in words is text");

        // The words stay while the break changes elsewhere, and go when they are given back.
        await page.GetByRole(AriaRole.Link, new() { Name = "Back to the break" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Teach it" }).ClickAsync();
        await Assertions.Expect(page.Locator(".said li").First).ToHaveTextAsync(Own);
        await page.GetByRole(AriaRole.Button, new() { Name = "Back to the program's words for phrase 1" }).ClickAsync();
        await Assertions.Expect(page.Locator(".said li").First).Not.ToHaveTextAsync(Own);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Words_are_kept_with_the_break_in_the_library()
    {
        var folder = Directory.CreateTempSubdirectory("rollwright-desk").FullName;
        var place = LibraryPlace.Of(Path.Combine(folder, "library.db"));
        var library = await TuneLibrary.OpenAsync(place, TimeProvider.System);
        await using (var workbench = await Workbench.StartAsync(0, library, TestContext.Current.CancellationToken))
        {
            await using var visitor = await Visitor.Arrive(at: workbench.Address);
            await visitor.Open("Wren on the Gatepost");
            var page = visitor.Page;
            await Assertions.Expect(page.Locator(".keep-line")).ToContainTextAsync("Kept");
            await page.GetByRole(AriaRole.Link, new() { Name = "Teach it" }).ClickAsync();
            await page.GetByRole(AriaRole.Button, new() { Name = "Say it in your own words for phrase 2" })
                .ClickAsync();
            await page.GetByLabel("Words for phrase 2, in Markdown").FillAsync("As before, but softer.");
            await page.GetByRole(AriaRole.Button, new() { Name = "Keep these words" }).ClickAsync();
            await Assertions.Expect(page.GetByText("As before, but softer.")).ToBeVisibleAsync();
            visitor.Complaints.Should().BeEmpty();
        }
        await using (var workbench = await Workbench.StartAsync(0, library, TestContext.Current.CancellationToken))
        {
            await using var visitor = await Visitor.Arrive(at: workbench.Address);
            await visitor.Ready();
            var page = visitor.Page;
            await visitor.TakeKept("Wren on the Gatepost");
            await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Wren on the Gatepost");
            await visitor.Settled();
            await page.GetByRole(AriaRole.Link, new() { Name = "Teach it" }).ClickAsync();
            await Assertions.Expect(page.GetByText("As before, but softer.")).ToBeVisibleAsync();
            visitor.Complaints.Should().BeEmpty();
        }
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_column_in_ones_own_words_and_order_is_looked_at_before_it_is_taken_away()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Open("Wren on the Gatepost");
        var page = visitor.Page;
        await page.GetByRole(AriaRole.Link, new() { Name = "Teach it" }).ClickAsync();
        await page.GetByLabel("What you say first").FillAsync("Learnt *by ear* at the kitchen table.");
        await page.GetByText("Words and order of the column").ClickAsync();
        var template = page.GetByLabel("The column in Markdown");
        (await template.InputValueAsync()).Should().Contain("{{phrases}}");
        var keep = page.GetByRole(AriaRole.Button, new() { Name = "Keep and show the column" });
        await template.FillAsync("# {{title}}\n\n{{introducton}}\n");
        await keep.ClickAsync();
        await Assertions
            .Expect(page.GetByRole(AriaRole.Alert))
            .ToContainTextAsync("Template:3:1: no place is called 'introducton'; did you mean 'introduction'?");
        await template.FillAsync("# The {{title}} column\n\n{{introduction}}\n\n{{break}}\n");
        await keep.ClickAsync();
        var column = page.FrameLocator(".look");
        await Assertions.Expect(column.Locator("h1")).ToHaveTextAsync("The Wren on the Gatepost column");
        await Assertions.Expect(column.Locator("em").First).ToHaveTextAsync("by ear");
        (await column.Locator("figure img").First.EvaluateAsync<int>("it => it.decode().then(() => it.naturalWidth)"))
            .Should()
            .BeGreaterThan(200);
        (await Axe.Findings(page)).Should().BeEmpty();
        await page.ScreenshotAsync(
            new() { Path = Path.Combine(Places.Pictures, "lesson-desk-column.png"), FullPage = true }
        );
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_lesson_that_is_on_no_page_and_a_document_that_there_is_not_are_answered_in_words()
    {
        await using var workbench = await Workbench.StartAsync(0, stop: TestContext.Current.CancellationToken);
        using var client = new HttpClient { BaseAddress = new Uri(workbench.Address) };
        foreach (
            var output in LessonOutput
                .All.Select(output => $"take/{output.Name}")
                .Append("everything.zip")
                .Append("look/page")
        )
        {
            using var answer = await client.GetAsync(
                $"/lesson/0123456789abcdef/{output}",
                TestContext.Current.CancellationToken
            );
            ((int)answer.StatusCode).Should().Be(404);
            (await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))
                .Should()
                .Contain("no longer on an open page");
        }
    }
}
