using System.Diagnostics;
using System.Text;
using Rollwright.EndToEnd;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>
/// A command that writes is killed (SIGKILL) at moments drawn by a seed, as when the power goes: the library opens and is whole, a
/// backup is whole or not there, and the same command does the rest.
/// </summary>
public class KilledCommandTests
{
    private const int Tunes = 300;
    private const int Rounds = 4;

    [Fact]
    public void Killed_in_the_middle_of_an_import_the_library_is_whole_and_the_next_one_brings_the_rest()
    {
        using var place = new Workplace();
        place.Put("tunes.abc", Collection(new Random(20261127)));
        var longest = Took(place, "library", "import", "tunes.abc", "--library", "first.db");
        var random = new Random(41);
        for (var round = 0; round < Rounds; round++)
        {
            Kill(place, longest * random.NextDouble(), "library", "import", "tunes.abc", "--library", "killed.db");
            var (code, _, error) = place.Run("library", "list", "--library", "killed.db");
            code.Should().Be(0, error);
            Integrity.Of(Path.Combine(place.Folder, "killed.db")).Should().Be("ok");
        }
        place.Run("library", "import", "tunes.abc", "--library", "killed.db").Code.Should().Be(0);
        Titles(place, "killed.db").Should().BeEquivalentTo(Titles(place, "first.db")).And.HaveCount(Tunes);
    }

    [Fact]
    public void Killed_in_the_middle_of_a_backup_there_is_a_whole_one_or_none()
    {
        using var place = new Workplace();
        place.Put("tunes.abc", Collection(new Random(20261128)));
        place.Run("library", "import", "tunes.abc", "--library", "first.db").Code.Should().Be(0);
        var longest = Took(place, "library", "backup", "whole.zip", "--library", "first.db");
        var random = new Random(42);
        for (var round = 0; round < Rounds; round++)
        {
            Kill(place, longest * random.NextDouble(), "library", "backup", $"{round}.zip", "--library", "first.db");
            if (!File.Exists(Path.Combine(place.Folder, $"{round}.zip")))
                continue;
            place.Run("library", "restore", $"{round}.zip", "--library", $"{round}.db").Code.Should().Be(0);
            Titles(place, $"{round}.db").Should().HaveCount(Tunes);
        }
        Titles(place, "first.db").Should().HaveCount(Tunes);
    }

    private static double Took(Workplace place, params string[] what)
    {
        var clock = Stopwatch.StartNew();
        place.RunAlone(what).Code.Should().Be(0);
        return clock.Elapsed.TotalMilliseconds;
    }

    private static void Kill(Workplace place, double milliseconds, params string[] what)
    {
        using var process = place.Start(what);
        if (!process.WaitForExit(TimeSpan.FromMilliseconds(milliseconds)))
            process.Kill();
        process.WaitForExit();
    }

    private static List<string> Titles(Workplace place, string library)
    {
        place.Run("library", "export", "chance", "-o", $"{library}.abc", "--library", library).Code.Should().Be(0);
        return
        [
            .. File.ReadLines(Path.Combine(place.Folder, $"{library}.abc"))
                .Where(line => line.StartsWith("T:", StringComparison.Ordinal)),
        ];
    }

    // Invented: eight bars of notes by chance, each tune another.
    private static string Collection(Random random)
    {
        var text = new StringBuilder();
        for (var i = 1; i <= Tunes; i++)
        {
            text.Append($"X:{i}\nT:Tune {i} by chance\nM:4/4\nL:1/8\nK:G\n");
            for (var bar = 0; bar < 8; bar++)
            {
                for (var note = 0; note < 8; note++)
                    text.Append("GABcdefg"[random.Next(8)]);
                text.Append('|');
            }
            text.Append("]\n\n");
        }
        return text.ToString();
    }
}
