using System.Text.Json;
using System.Text.RegularExpressions;
using Rollwright.Arranging;
using Rollwright.Arranging.Advice;
using Rollwright.Arranging.Locks;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;
using Rollwright.Web.Words;

namespace Rollwright.Cli.Tests;

/// <summary>A bar has one number: what is printed is what the words say, and what a lock takes.</summary>
public partial class BarNumbersTests
{
    // The chords differ, so that they tell which bar a line begins with.
    private static readonly string[] Chords =
    [
        "G",
        "C",
        "D",
        "Em",
        "Am",
        "D7",
        "Bm",
        "G7",
        "F",
        "Dm",
        "E",
        "A",
        "A7",
        "E7",
        "B7",
        "Gm",
    ];

    private const string Bar = "G2B2 d2B2";

    /// <summary>16 full bars, with a quarter before them or without.</summary>
    private static string Tune(bool hasPickup) =>
        $"X:1\nT:Counted\nM:4/4\nL:1/8\nK:G\n{(hasPickup ? "D2 | " : "")}"
        + string.Join(" | ", Chords.Select(chord => $"\"{chord}\"{Bar}"))
        + " |]\n";

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void The_tab_prints_the_number_that_why_says_and_a_lock_takes(bool hasPickup)
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune(hasPickup));
        var (code, tab, error) = place.RunAlone("arrange", "tune.abc");
        code.Should().Be(0, error);
        // A line of numbers stands over the line of chords.
        var printed = Numbered()
            .Matches(tab)
            .Select(match => (int.Parse(match.Groups["bar"].Value), match.Groups["chord"].Value))
            .ToArray();
        printed.Should().NotBeEmpty();
        printed.Should().OnlyContain(line => Chords[line.Item1 - 1] == line.Item2, tab);

        var (bar, _) = printed[0];
        (code, var why, error) = place.Run(
            "arrange",
            "tune.abc",
            "--lock",
            $"{bar}/1 rest",
            "--why",
            "-o",
            "locked.json"
        );
        code.Should().Be(0, error);
        why.Should().Contain($"bar {bar}, beat 1: silence");
        why.Contains("bar 0, beat 4: ", StringComparison.Ordinal).Should().Be(hasPickup);
        var bars = JsonDocument
            .Parse(File.ReadAllText(Path.Combine(place.Folder, "locked.json")))
            .RootElement.GetProperty("bars");
        var index = hasPickup ? bar : bar - 1;
        bars[index].GetProperty("chords")[0].GetProperty("chord").ToString().Should().Contain(Chords[bar - 1]);
        bars[index]
            .GetProperty("strokes")
            .EnumerateArray()
            .Select(stroke => stroke.GetProperty("at").GetString())
            .Should()
            .NotContain("0");

        (code, var tempo, error) = place.Run("check", "--tempo", "locked.json");
        code.Should().Be(0, error);
        Listed()
            .Matches(tempo)
            .Select(match => int.Parse(match.Groups["bar"].Value))
            .Should()
            .Equal(Enumerable.Range(hasPickup ? 0 : 1, hasPickup ? 17 : 16));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void The_page_prints_the_number_that_the_words_and_the_locks_have(bool hasPickup)
    {
        var tune = AbcReader.Read(Tune(hasPickup), "tune.abc").Tunes[0];
        var made = Arranger.Arrange(tune);
        var layout = Engraver.Lay(made.Break, PageStyle.A4);
        var numbers = layout
            .Pages.SelectMany(page => page.Inks)
            .OfType<Words>()
            .Where(words => words.Kind == InkKind.BarNumber)
            .Select(words => words.Text)
            .ToArray();
        var firsts = layout.Bars.GroupBy(bar => bar.System).Skip(1).Select(system => system.First().Bar).ToArray();
        numbers.Should().HaveSameCount(firsts).And.NotBeEmpty();
        foreach (var (number, index) in numbers.Zip(firsts))
        {
            Chords[int.Parse(number) - 1].Should().Be($"{tune.Bars[index].Chords[0].Chord}");
            var kept = LockReader.Read($"{number} no-slur", made)[0];
            made.Grid.Steps[kept.First].Bar.Should().Be(index);
            PlaceWords.Of(made.Grid, kept.First, kept.Last).Should().Be($"bar {number}");
        }
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void The_advice_names_the_bars_that_are_printed(bool hasPickup)
    {
        // Sixteenths in bars 5 and 6, which no roll can carry whole; long notes elsewhere.
        var bars = Enumerable
            .Range(1, 8)
            .Select(bar => bar is 5 or 6 ? "G/A/B/c/ d/c/B/A/ G/A/B/c/ d/c/B/A/" : "G4 B4");
        var abc = $"X:1\nT:Runs\nM:4/4\nL:1/8\nK:G\n{(hasPickup ? "D2 | " : "")}{string.Join(" | ", bars)} |]\n";
        var advice = Arranger.Advise(AbcReader.Read(abc, "tune.abc").Tunes[0]);
        advice
            .Sentences.Should()
            .Contain(
                sentence => sentence.Contains("in bars 5–6:", StringComparison.Ordinal),
                string.Join('\n', advice.Sentences)
            );
    }

    [GeneratedRegex(
        @"^(?<bar>\d+)\n *(?<chord>[A-G][a-z0-9]*)",
        RegexOptions.ExplicitCapture | RegexOptions.Multiline,
        1000
    )]
    private static partial Regex Numbered();

    [GeneratedRegex(@"^bar +(?<bar>\d+) ", RegexOptions.ExplicitCapture | RegexOptions.Multiline, 1000)]
    private static partial Regex Listed();
}
