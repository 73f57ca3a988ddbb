using System.Text.Json;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

public class LibraryTests
{
    private const string Tunes =
        "X:1\nT:First of Two\nM:4/4\nL:1/8\nK:G\nGABc dedc|BGAF G4|\n\nX:2\nT:Second of Two\nM:4/4\nL:1/8\nK:D\nd2f2 a2f2|d8|\n";

    [Fact]
    public void Tunes_come_in_are_found_go_out_and_survive_a_backup()
    {
        using var place = new Workplace();
        place.Put("tunes.abc", Tunes);
        var (code, _, error) = Ask(place, "import", "tunes.abc", "--tag", "class");
        (code, error.Contains("2 tunes added", StringComparison.Ordinal)).Should().Be((0, true), error);
        Ask(place, "import", "tunes.abc").Err.Should().Contain("0 tunes added, 2 were there already");
        var (_, found, _) = Ask(place, "find", "secon", "--json");
        JsonDocument.Parse(found).RootElement[0].GetProperty("title").GetString().Should().Be("Second of Two");
        Ask(place, "find", "nothing").Code.Should().Be(1);
        Ask(place, "tag", "slow jam", "first").Out.Trim().Should().Be("First of Two: class, slow jam");
        Ask(place, "find", "jam").Out.Should().Contain("First of Two").And.NotContain("Second");
        Ask(place, "tag", "Slow Jam", "first", "--remove").Out.Trim().Should().Be("First of Two: class");
        Ask(place, "tag", "x", "nothing").Code.Should().Be(1);
        Ask(place, "export", "first", "-o", "out.abc").Code.Should().Be(0);
        File.ReadAllText(Path.Combine(place.Folder, "out.abc")).Should().Contain("GABc dedc").And.NotContain("Second");
        Ask(place, "backup", "b.zip").Code.Should().Be(0);
        place.Run("library", "restore", "b.zip", "--library", "other.db").Err.Should().Contain("2 tunes");
    }

    [Fact]
    public void What_is_no_library_is_refused_in_one_line()
    {
        using var place = new Workplace();
        place.Put("letter.db", new string('x', 5_000));
        var (code, output, error) = place.Run("library", "list", "--library", "letter.db");
        code.Should().Be(2);
        output.Should().BeEmpty();
        error.Trim().Split('\n').Should().ContainSingle().Which.Should().Contain("letter.db").And.Contain("restore");
    }

    private static (int Code, string Out, string Err) Ask(Workplace place, params string[] what) =>
        place.Run(["library", .. what, "--library", "library.db"]);
}
