using System.Text.Json;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.CommandLine;

/// <summary>
/// Every shared tune through the command line, judged by a program that shares no code with this one
/// (../shared/judge/judge.py; abc2midi says what the tune is).
/// </summary>
public class JudgeTests
{
    [Fact]
    public void Breaks_of_all_shared_tunes_are_without_fault_keep_the_tune_and_stay_in_the_idiom()
    {
        var tunes = Places.NeedShared("tunes");
        var judge = Places.NeedShared("judge/judge.py");
        Assert.SkipUnless(Outside.Has("abc2midi"), "needs the program 'abc2midi' (see ./test)");
        using var place = new Workplace();
        string[] files = [.. Directory.GetFiles(tunes, "*.abc").Order(StringComparer.Ordinal)];
        var (code, _, error) = place.Run(["arrange", .. files, "--out-dir", place.Folder, "--to", "musicxml,mid"]);
        code.Should().Be(0, error);

        var rows = Judge(judge, tunes, place.Folder, files.Length);
        rows.Sum(row => row.GetProperty("faults").GetArrayLength()).Should().Be(0);
        Median(rows, "recall").Should().BeGreaterThanOrEqualTo(0.90);
        Median(rows, "drive").Should().BeGreaterThanOrEqualTo(0.9);
        Median(rows, "fit").Should().BeGreaterThanOrEqualTo(0.95);
        Median(rows, "cells").Should().BeGreaterThanOrEqualTo(0.95);
        Median(rows, "rolls").Should().BeGreaterThanOrEqualTo(0.8);
        Median(rows, "natural").Should().BeGreaterThanOrEqualTo(0.93);
        Median(rows, "drone").Should().BeInRange(0.14, 0.33);
        Median(rows, "same").Should().BeLessThanOrEqualTo(0.03);
        Median(rows, "placed").Should().BeLessThanOrEqualTo(1.9);
        Median(rows, "slurs").Should().BeInRange(0.3, 1.5);
        Median(rows, "echo").Should().BeGreaterThanOrEqualTo(0.88);
    }

    private static JsonElement[] Judge(string judge, string tunes, string breaks, int count)
    {
        var (code, output, error) = Outside.Run("python3", judge, tunes, breaks, "--json");
        code.Should().Be(0, error);
        var verdict = JsonDocument.Parse(output).RootElement;
        verdict.GetProperty("missing").GetArrayLength().Should().Be(0, verdict.GetProperty("missing").ToString());
        JsonElement[] rows = [.. verdict.GetProperty("rows").EnumerateArray()];
        rows.Should().HaveCount(count);
        return rows;
    }

    // As the judge takes it: the upper of the two in the middle; tunes without a figure are left out.
    private static double Median(JsonElement[] rows, string figure)
    {
        var values = rows.Select(row => row.GetProperty(figure))
            .Where(value => value.ValueKind == JsonValueKind.Number)
            .Select(value => value.GetDouble())
            .Order()
            .ToArray();
        return values[values.Length / 2];
    }
}
