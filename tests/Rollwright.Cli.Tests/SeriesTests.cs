using System.ServiceModel.Syndication;
using System.Xml;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>Several lessons as one index page and an Atom feed (RFC 4287).</summary>
public class SeriesTests
{
    private const string Hostile =
        "X:1\nT:Second <b>&\nC:Trad.\nM:4/4\nL:1/8\nK:G\n|:GABc dedc|BGAF G4|GABc dedc|BAGF G4:|\n";

    [Fact]
    public void Lessons_in_a_folder_become_an_index_and_a_feed_that_other_readers_take()
    {
        using var place = new Workplace();
        place.Put("two.abc", Hostile);
        var wren = Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");
        place
            .Run("lesson", wren, "--out-dir", "all/01 first", "--only", "page,facts", "--level", "2")
            .Code.Should()
            .Be(0);
        place.Run("lesson", "two.abc", "--out-dir", "all/02", "--only", "captions,facts").Code.Should().Be(0);
        string[] ask =
        [
            "series",
            "all",
            "--title",
            "A winter & more",
            "--author",
            "Nobody",
            "--address",
            "https://example.org/x",
        ];
        place.Run(ask).Code.Should().Be(0);
        place.Run(ask).Code.Should().Be(0, "made again over its own files");

        var index = File.ReadAllText(Path.Combine(place.Folder, "all", "index.html"));
        index
            .Should()
            .Contain("href=\"01%20first/page/index.html\"")
            .And.Contain("Level 2,")
            .And.Contain("A winter &amp; more");
        index.Should().Contain("Second &lt;b&gt;&amp;").And.NotContain("<b>");
        index
            .IndexOf("Wren on the Gatepost", StringComparison.Ordinal)
            .Should()
            .BeLessThan(index.IndexOf("Second", StringComparison.Ordinal));

        // libxml2 finds it well formed; the framework's own reader of feeds gets the entries back.
        var feed = Path.Combine(place.Folder, "all", "feed.xml");
        Outside.Run("xmllint", "--noout", feed).Should().Be((0, "", ""));
        using var xml = XmlReader.Create(feed);
        var read = SyndicationFeed.Load(xml);
        read.Items.Select(item => item.Title.Text).Should().BeEquivalentTo("Wren on the Gatepost", "Second <b>&");
        read.Items.SelectMany(item => item.Links)
            .Select(link => link.GetAbsoluteUri().AbsoluteUri)
            .Should()
            .Contain("https://example.org/x/01%20first/page/index.html");
        read.Items.Should().OnlyHaveUniqueItems(item => item.Id);
    }

    [Fact]
    public void What_is_in_the_way_is_told_in_one_line()
    {
        using var place = new Workplace();
        place.Run("series", "none").Err.Should().Contain("there is no such folder");
        Directory.CreateDirectory(Path.Combine(place.Folder, "empty"));
        place.Run("series", "empty").Err.Should().Contain("no lesson is in it");
        Directory.CreateDirectory(Path.Combine(place.Folder, "bad", "one"));
        place.Put("bad/one/lesson.json", "{}");
        place.Run("series", "bad").Err.Should().Contain("lesson.json: this is no file about a lesson");
        place.Run("series", "bad", "--address", "javascript:alert(1)").Err.Should().Contain("--address");
    }
}
