using System.Text;
using System.Xml.Linq;
using Microsoft.Playwright;

namespace Rollwright.EndToEnd;

/// <summary>Whatever stands in a tune's fields, or in a file's name, stays text: on the page, in what it gives away, and in print.</summary>
public class HostileTests
{
    private const string Trap =
        "</title></script></text></style>--><script>window.taken=1</script><img src=x onerror=\"window.taken=1\">";

    // Every field that holds words, a chord's name, words under the notes, a part's name.
    private static readonly string Tune =
        $"X:1\nT:Trap {Trap}\nT:{Trap}\nC:{Trap}\nO:{Trap}\nR:{Trap}\nN:{Trap}\nS:{Trap}\nZ:{Trap}\nH:{Trap}\nM:4/4\nL:1/8\nK:G\nP:A\n"
        + "\"G\"GABc \"^<script>window.taken=1</script>\"dedc|\"<img src=x onerror=window.taken=1>\"BGAF \"D&lt;7\"G4|\n"
        + $"w: {Trap.Replace(' ', '~')}\n\"C\"cdec GABc|\"D7\"A2F2 \"G\"G4|\n";

    [Fact]
    public async Task Fields_of_a_tune_stay_text_on_the_page_and_in_print()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Paste(Tune);
        var page = visitor.Page;
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Trap </title>");
        await visitor.Settled();
        await visitor.ChooseFirstStep();
        await page.GetByRole(AriaRole.Button, new() { Name = "As printed" }).ClickAsync();
        await Assertions.Expect(page.Locator("#drawing .join")).ToHaveCountAsync(0);
        await ExpectNothingTaken(page);
        (await page.TitleAsync()).Should().Contain("<script>", "it is read as the text it is");
        (await page.PdfAsync()).Should().NotBeEmpty();
        await ExpectNothingTaken(page);
        // A script that had been tried would be a breach of the page's policy, and the browser would complain.
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task What_the_page_gives_away_holds_no_markup_of_the_tune_s()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Paste(Tune);
        var page = visitor.Page;
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Trap </title>");
        await visitor.Settled();
        var links = await page.Locator("a[href^='/made/']")
            .EvaluateAllAsync<string[]>("links => links.map(link => link.getAttribute('href'))");
        links
            .Should()
            .Contain(link => link.EndsWith(".svg", StringComparison.Ordinal))
            .And.Contain(link => link.EndsWith(".html", StringComparison.Ordinal));
        foreach (
            var link in links.Where(link =>
                link.EndsWith(".svg", StringComparison.Ordinal) || link.EndsWith(".musicxml", StringComparison.Ordinal)
            )
        )
        {
            var answer = await page.APIRequest.GetAsync(new Uri(new Uri(page.Url), link).ToString());
            answer.Status.Should().Be(200);
            var text = await answer.TextAsync();
            var read = XDocument.Parse(text);
            read.Descendants()
                .Should()
                .NotContain(
                    element =>
                        element.Name.LocalName == "script"
                        || element.Name.LocalName == "img"
                        || element
                            .Attributes()
                            .Any(attribute => attribute.Name.LocalName.StartsWith("on", StringComparison.Ordinal)),
                    link
                );
            text.Should().Contain("Trap &lt;/title&gt;", link);
        }
        // The page that plays without a server has no policy of a server to protect it.
        var alone = links.Single(link => link.EndsWith(".html", StringComparison.Ordinal));
        var html = await (await page.APIRequest.GetAsync(new Uri(new Uri(page.Url), alone).ToString())).TextAsync();
        var file = Path.Combine(Directory.CreateTempSubdirectory("rollwright-trap").FullName, "trap.html");
        await File.WriteAllTextAsync(file, html);
        await page.GotoAsync($"file://{file}");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Trap </title>");
        await ExpectNothingTaken(page);
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
    }

    [Fact]
    public async Task Files_of_the_wrong_kind_size_number_and_name_are_refused_in_words_and_what_lay_there_stays()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Ready();
        var page = visitor.Page;
        var title = await page.Locator("h1").TextContentAsync();
        var (input, problems) = (page.Locator("#file"), page.Locator("#text-problems"));

        await Put("big.abc", new byte[2_000_001]);
        await Assertions.Expect(problems).ToContainTextAsync("more than the page takes");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync(title!);

        await page.EvaluateAsync(
            """
            () => {
              const files = new DataTransfer();
              for (const name of ["one.abc", "two.abc", "three.abc"]) files.items.add(new File(["X:1"], name));
              const input = document.getElementById("file");
              input.files = files.files;
              input.dispatchEvent(new Event("change", { bubbles: true }));
            }
            """
        );
        await Assertions.Expect(problems).ToContainTextAsync("3 files: the page takes one at a time");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync(title!);

        // A picture by another name.
        await Put("picture.abc", [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0xff, 0xfe, 0, 1]);
        await Assertions.Expect(problems.Locator("li").First).ToBeVisibleAsync();
        await ExpectNothingTaken(page);

        await Put(
            $"../../etc/<img src=x onerror=window.taken=1>.abc",
            Encoding.UTF8.GetBytes("X:1\nT:Good\nK:G\nGABc|\n")
        );
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Good");
        await ExpectNothingTaken(page);
        visitor.Complaints.Should().BeEmpty();

        Task Put(string name, byte[] bytes) =>
            input.SetInputFilesAsync(
                new FilePayload
                {
                    Name = name,
                    MimeType = "text/plain",
                    Buffer = bytes,
                }
            );
    }

    private static async Task ExpectNothingTaken(IPage page)
    {
        (await page.EvaluateAsync<bool>("() => window.taken === undefined"))
            .Should()
            .BeTrue("no script of a tune runs");
        // The break's own pages lie ready for the browser's printing.
        var taken = "main img:not(.on-paper > img), main iframe, main script, main object, svg script, svg image";
        (await page.Locator(taken).CountAsync()).Should().Be(0, "no markup of a tune's is markup here");
    }
}
