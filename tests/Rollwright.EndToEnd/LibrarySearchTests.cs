using Microsoft.Playwright;
using Rollwright.Library;
using Rollwright.Library.Importing;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;

namespace Rollwright.EndToEnd;

/// <summary>The library on the page: found as one types, by the keyboard, and by what a screen reader is told.</summary>
public sealed class LibrarySearchTests : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("rollwright-search").FullName;
    private TuneLibrary library = null!;
    private Workbench workbench = null!;

    public async ValueTask InitializeAsync()
    {
        await Visitor.Browser();
        library = await TuneLibrary.OpenAsync(new(Path.Combine(folder, "library.db"), null), TimeProvider.System);
        var file = Path.Combine(folder, "tunes.abc");
        File.WriteAllText(
            file,
            "X:1\nT:Harbour Kettle\nM:4/4\nL:1/8\nK:G\nGABc dedc|BGAF G4|\n\n"
                + "X:2\nT:Kettle Row\nM:4/4\nL:1/8\nN:learnt at the mill\nK:D\ndefg afed|cAef d4|\n"
        );
        await AbcImport.RunAsync(library, [file], ["class"], TimeProvider.System);
        workbench = await Workbench.StartAsync(0, library);
    }

    public async ValueTask DisposeAsync()
    {
        if (workbench is not null)
            await workbench.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Letters_find_arrows_choose_and_enter_takes()
    {
        await using var visitor = await Visitor.Arrive(at: workbench.Address);
        var page = visitor.Page;
        await visitor.Ready();
        var box = page.GetByRole(AriaRole.Combobox, new() { Name = "Your library" });
        await box.FocusAsync();
        await Assertions.Expect(box).ToHaveAttributeAsync("aria-expanded", "false");
        await page.Keyboard.TypeAsync("kett");
        var options = page.Locator("#search-list [role=option]");
        await Assertions.Expect(options).ToHaveCountAsync(2);
        await Assertions.Expect(box).ToHaveAttributeAsync("aria-expanded", "true");
        await Assertions.Expect(page.Locator("#search-said")).ToHaveTextAsync("2 found. Arrows choose, Enter takes.");
        await ExpectActive(page, box, 0);
        await page.Keyboard.PressAsync("ArrowDown");
        await ExpectActive(page, box, 1);
        await page.Keyboard.PressAsync("ArrowDown");
        await ExpectActive(page, box, 0);
        await page.Keyboard.PressAsync("ArrowUp");
        await ExpectActive(page, box, 1);
        var title = (await options.Nth(1).Locator("span").First.TextContentAsync())!;
        await page.ScreenshotAsync(new() { Path = Path.Combine(Places.Pictures, "search.png") });
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync(title);
        await Assertions.Expect(options).ToHaveCountAsync(0);
        await Assertions.Expect(box).ToHaveValueAsync("");
        await Assertions.Expect(box).ToBeFocusedAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Theory]
    [InlineData("class", 2)]
    [InlineData("learnt", 1)]
    [InlineData("d maj class", 1)]
    [InlineData("nothing", 0)]
    public async Task Tags_words_of_the_text_and_keys_are_found_and_escape_closes(string words, int count)
    {
        await using var visitor = await Visitor.Arrive(at: workbench.Address);
        var page = visitor.Page;
        await visitor.Ready();
        await page.Locator("#search").FillAsync(words);
        await Assertions
            .Expect(page.Locator("#search-said"))
            .ToContainTextAsync(count == 0 ? "Nothing found." : $"{count} found");
        await Assertions.Expect(page.Locator("#search-list [role=option]")).ToHaveCountAsync(count);
        await page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(page.Locator("#search-list [role=option]")).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator("#search")).ToHaveValueAsync(words);
        await page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(page.Locator("#search")).ToHaveValueAsync("");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task What_was_just_kept_is_found_and_comes_back_as_it_was()
    {
        await using var visitor = await Visitor.Arrive(at: workbench.Address);
        var page = visitor.Page;
        await visitor.Ready();
        await page.Locator("#search").FillAsync("harbour");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Harbour Kettle");
        await page.GetByLabel("Level", new() { Exact = true }).SelectOptionAsync("5");
        await Assertions.Expect(page.Locator(".turns li").Last).ToContainTextAsync("Level 5");
        await Assertions.Expect(page.Locator(".keep-line")).ToHaveTextAsync("Kept.");
        await visitor.Open("Wren on the Gatepost");
        // Without a word: what was kept last, first.
        await page.Locator("#search").ClickAsync();
        var options = page.Locator("#search-list [role=option]");
        await Assertions.Expect(options.Nth(0)).ToContainTextAsync("Wren on the Gatepost");
        await Assertions.Expect(options.Nth(1)).ToContainTextAsync("Harbour Kettle");
        await visitor.TakeKept("harbour");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Harbour Kettle");
        await Assertions.Expect(page.GetByLabel("Level", new() { Exact = true })).ToHaveValueAsync("5");
        visitor.Complaints.Should().BeEmpty();
    }

    private static async Task ExpectActive(IPage page, ILocator box, int row)
    {
        await Assertions.Expect(box).ToHaveAttributeAsync("aria-activedescendant", $"found-{row}");
        await Assertions.Expect(page.Locator($"#found-{row}")).ToHaveAttributeAsync("aria-selected", "true");
        await Assertions.Expect(page.Locator("#search-list [aria-selected=true]")).ToHaveCountAsync(1);
    }
}
