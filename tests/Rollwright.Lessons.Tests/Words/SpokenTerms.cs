using System.Globalization;
using System.Text.RegularExpressions;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Tests.Words;

/// <summary>
/// The terms that sentences of a lesson are made of, as a person who never saw the program reads them: counts, fingers,
/// strings, frets, slurs. Named groups: count, half; right, left; s (string), f (fret); slur.
/// </summary>
internal static class SpokenTerms
{
    public const int Patience = 1000;

    /// <summary>"2", "2-and", "1-plus-1/3".</summary>
    public const string Count = @"(?<count>\d+(-(e|and|a|plus-\d+/\d+))?)";

    /// <summary>The same, or half-way to the next one: "the half after 2-and".</summary>
    public const string Moment = "(?<half>the half after )?" + Count;

    public const string RightHand = "(?<right>thumb|index|middle|pluck)";

    public const string LeftHand = "(?<left>it|thumb|(index|middle|ring|little|a) finger)";

    public const string String = @"(?<s>[1-5])\b";

    public const string Fret = @"(open|fret (?<f>\d+))";

    public const string Slur = "(?<slur>hammer|pull off|pull|slide|choke)";

    /// <summary>Counts from the beginning of the full bar to a count: 1½ for "2-and".</summary>
    public static Fraction CountsTo(Match match)
    {
        var parts = match.Groups["count"].Value.Split('-', 2);
        var rest =
            parts.Length == 1 ? Fraction.Zero
            : parts[1] == "e" ? new(1, 4)
            : parts[1] == "and" ? new(1, 2)
            : parts[1] == "a" ? new(3, 4)
            : Fractional(parts[1]["plus-".Length..]);
        return new Fraction(Number(parts[0]) - 1) + rest;
    }

    public static bool IsHalfAfter(Match match) => match.Groups["half"].Success;

    public static int StringOf(Match match) => Number(match.Groups["s"].Value);

    /// <summary>0 where the string is open, or no fret is said.</summary>
    public static int FretOf(Match match) => match.Groups["f"] is { Success: true } fret ? Number(fret.Value) : 0;

    /// <summary>Null where only "pluck" is said.</summary>
    public static RightFinger? RightOf(Match match) =>
        match.Groups["right"].Value switch
        {
            "thumb" => RightFinger.T,
            "index" => RightFinger.I,
            "middle" => RightFinger.M,
            _ => null,
        };

    public static string LeftOf(Match match) => match.Groups["left"].Value;

    public static SlurKind SlurOf(Match match) =>
        match.Groups["slur"].Value switch
        {
            "hammer" => SlurKind.HammerOn,
            "pull off" or "pull" => SlurKind.PullOff,
            "slide" => SlurKind.Slide,
            _ => SlurKind.Choke,
        };

    private static Fraction Fractional(string text)
    {
        var parts = text.Split('/');
        return new(Number(parts[0]), Number(parts[1]));
    }

    private static int Number(string digits) => int.Parse(digits, CultureInfo.InvariantCulture);
}
