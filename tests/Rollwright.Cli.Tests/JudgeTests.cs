using System.Text.Json;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>
/// Every shared tune through the command line in the styles, judged by a program that shares no code with this one
/// (../shared/judge/judge.py; abc2midi says what the tune is). The bounds are on medians; "tenth" is the tenth percentile
/// of recall.
/// </summary>
public class JudgeTests
{
    [Fact]
    public void Rolls_at_level_4_keep_the_tune_and_stay_in_the_idiom()
    {
        var rows = Judged("roll", 4);
        AtLeast(
            rows,
            ("recall", 0.95),
            ("rolls", 0.90),
            ("natural", 0.95),
            ("cells", 0.98),
            ("echo", 0.92),
            ("fit", 0.97),
            ("drive", 0.92)
        );
        AtMost(rows, ("same", 0.02), ("placed", 1.7), ("slurs", 1.5), ("drone", 0.33));
        AtLeast(rows, ("slurs", 0.4), ("drone", 0.15));
        Tenth(rows).Should().BeGreaterThanOrEqualTo(0.87);
    }

    [Fact]
    public void Rolls_at_level_1_are_easy_and_still_the_tune()
    {
        var rows = Judged("roll", 1);
        AtLeast(
            rows,
            ("recall", 0.80),
            ("rolls", 0.90),
            ("natural", 0.98),
            ("cells", 0.95),
            ("drone", 0.15),
            ("echo", 0.92),
            ("fit", 0.97),
            ("drive", 0.6)
        );
        AtMost(rows, ("same", 0.02), ("placed", 1.0), ("slurs", 0.3), ("drone", 0.35));
        Tenth(rows).Should().BeGreaterThanOrEqualTo(0.70);
    }

    [Fact]
    public void Mixed_at_level_4_keeps_nearly_all_of_the_tune()
    {
        var rows = Judged("mixed", 4);
        AtLeast(
            rows,
            ("recall", 0.985),
            ("rolls", 0.60),
            ("natural", 0.70),
            ("cells", 0.90),
            ("drone", 0.12),
            ("slurs", 0.3),
            ("echo", 0.92),
            ("fit", 0.97),
            ("drive", 0.92)
        );
        AtMost(rows, ("same", 0.03), ("placed", 2.1), ("slurs", 1.5));
        Tenth(rows).Should().BeGreaterThanOrEqualTo(0.95);
    }

    [Fact]
    public void Melodic_at_level_5_keeps_all_of_the_tune()
    {
        var rows = Judged("melodic", 5);
        AtLeast(rows, ("recall", 0.995), ("echo", 0.92));
        AtMost(rows, ("same", 0.02), ("placed", 3.0));
        // Double stops and trills that the reference plays are no notes of our one line.
        Tenth(rows).Should().BeGreaterThanOrEqualTo(0.955);
    }

    private static JsonElement[] Judged(string style, int level)
    {
        var tunes = Places.NeedShared("tunes");
        var judge = Places.NeedShared("judge/judge.py");
        Assert.SkipUnless(Outside.Has("abc2midi"), "needs the program 'abc2midi' (see ./test)");
        using var place = new Workplace();
        string[] files = [.. Directory.GetFiles(tunes, "*.abc").Order(StringComparer.Ordinal)];
        var (code, _, error) = place.Run([
            "arrange",
            .. files,
            "--style",
            style,
            "--level",
            $"{level}",
            "--out-dir",
            place.Folder,
            "--to",
            "musicxml,mid",
        ]);
        code.Should().Be(0, error);
        var (judged, output, problem) = Outside.Run("python3", judge, tunes, place.Folder, "--json");
        judged.Should().Be(0, problem);
        var verdict = JsonDocument.Parse(output).RootElement;
        verdict.GetProperty("missing").GetArrayLength().Should().Be(0, verdict.GetProperty("missing").ToString());
        JsonElement[] rows = [.. verdict.GetProperty("rows").EnumerateArray()];
        rows.Should().HaveCount(files.Length);
        rows.Sum(row => row.GetProperty("faults").GetArrayLength()).Should().Be(0);
        return rows;
    }

    private static void AtLeast(JsonElement[] rows, params ReadOnlySpan<(string Figure, double Bound)> bounds)
    {
        foreach (var (figure, bound) in bounds)
            Median(rows, figure).Should().BeGreaterThanOrEqualTo(bound, figure);
    }

    private static void AtMost(JsonElement[] rows, params ReadOnlySpan<(string Figure, double Bound)> bounds)
    {
        foreach (var (figure, bound) in bounds)
            Median(rows, figure).Should().BeLessThanOrEqualTo(bound, figure);
    }

    // As the judge takes it: the upper of the two in the middle; tunes without a figure are left out.
    private static double Median(JsonElement[] rows, string figure)
    {
        var values = Ordered(rows, figure);
        return values[values.Length / 2];
    }

    private static double Tenth(JsonElement[] rows)
    {
        var values = Ordered(rows, "recall");
        return values[values.Length / 10];
    }

    private static double[] Ordered(JsonElement[] rows, string figure) =>
        [
            .. rows.Select(row => row.GetProperty(figure))
                .Where(value => value.ValueKind == JsonValueKind.Number)
                .Select(value => value.GetDouble())
                .Order(),
        ];
}
