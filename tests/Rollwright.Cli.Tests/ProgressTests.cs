using System.Text.RegularExpressions;
using Rollwright.Cli.Commands;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

public partial class ProgressTests
{
    private static string Tunes(int count) =>
        string.Concat(
            Enumerable.Range(1, count).Select(i => $"X:{i}\nT:Tune {i}\nM:4/4\nL:1/8\nK:G\nG2B2 d2B2|G4 G4|\n\n")
        );

    [Fact]
    public void Tunes_are_counted_and_a_file_counts_as_one_until_it_is_read()
    {
        var told = new List<(int, int)>();
        var count = new TuneCount(3, (done, whole) => told.Add((done, whole)));
        count.Read(1000);
        count.Done();
        count.Read(0);
        count.Done();
        count.Read(1);
        told.Should().Equal((0, 1002), (1, 1002), (1, 1001), (2, 1001), (2, 1001));
    }

    /// <summary>In a terminal, which script (util-linux) pretends to be.</summary>
    [Fact]
    public void One_file_of_many_tunes_shows_each_tune_on_a_terminal_and_nothing_in_a_pipe()
    {
        using var place = new Workplace();
        place.Put("many.abc", Tunes(5));
        var (code, output, error) = place.RunAlone("arrange", "many.abc", "--out-dir", "out", "--to", "tab");
        code.Should().Be(0, error);
        (output + error).Should().NotContain(" of 5 tunes");

        var dll = Path.Combine(AppContext.BaseDirectory, "rollwright.dll");
        (code, var shown, error) = Outside.Run(
            "script",
            "-qec",
            $"env -u CI -u GITHUB_ACTIONS TERM=xterm dotnet '{dll}' arrange '{place.Folder}/many.abc' --out-dir '{place.Folder}/again' --to tab",
            "/dev/null"
        );
        code.Should().Be(0, error);
        Counts()
            .Matches(shown)
            .Select(match => int.Parse(match.Groups["done"].Value))
            .Should()
            .BeInAscendingOrder()
            .And.EndWith(5);
        place.Files.Count(file => file.StartsWith("again", StringComparison.Ordinal)).Should().Be(5);
    }

    [GeneratedRegex(@"(?<done>\d+) of 5 tunes", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Counts();
}
