using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.TextTab.Reading;

/// <summary>What the lines above and below a system say: fingers, the count, chords, parts, endings.</summary>
internal sealed partial class TabWords
{
    /// <summary>Fingers at columns, row by row from the top.</summary>
    public List<(int Column, RightFinger Finger)> Fingers { get; } = [];

    /// <summary>Signs of the count at columns: numbers, &amp;, e, a.</summary>
    public List<(int Column, string Sign)> Counts { get; } = [];

    public List<(int Column, Chord Chord)> Chords { get; } = [];

    public List<(int Column, string Part)> Parts { get; } = [];

    public List<(int Column, ImmutableArray<int> Passes)> Endings { get; } = [];

    /// <summary>How often the section that ends below is played in all.</summary>
    public List<(int Column, int Times)> Times { get; } = [];

    public static TabWords Of(TabSystem system)
    {
        var words = new TabWords();
        foreach (var line in system.Above)
            words.ReadAbove(line);
        foreach (var line in system.Below)
            words.ReadBelow(line);
        return words;
    }

    /// <summary>A count that stands a column beside the numbers is moved below them: pages are typed by hand.</summary>
    public void AlignCounts(HashSet<int> columns)
    {
        var by = ((int[])[0, 1, -1]).MaxBy(shift => Counts.Count(count => columns.Contains(count.Column + shift)));
        for (var i = 0; i < Counts.Count; i++)
            Counts[i] = Counts[i] with { Column = Counts[i].Column + by };
    }

    private void ReadBelow(TabLine line)
    {
        var words = Signs(line).ToList();
        if (words.TrueForAll(word => FingerOf(word.Sign) is not null))
            Fingers.AddRange(words.Select(word => (word.Column, FingerOf(word.Sign)!.Value)));
        else if (words.TrueForAll(word => word.Sign is "&" or "+" or "e" or "a" || char.IsAsciiDigit(word.Sign[0])))
            Counts.AddRange(words);
        else
            ReadAbove(line);
    }

    private void ReadAbove(TabLine line)
    {
        foreach (Match ending in EndingSign().Matches(line.Text))
        {
            var passes = ending
                .Groups["pass"]
                .Captures.Select(pass => int.Parse(pass.Value, CultureInfo.InvariantCulture));
            Endings.Add(
                (ending.Index, [.. passes.Where(pass => pass is >= 1 and <= Unfolding.MostPasses).Distinct().Order()])
            );
        }
        foreach (Match times in TimesSign().Matches(line.Text))
            Times.Add(
                (
                    times.Index,
                    Math.Clamp(
                        int.Parse(times.Groups["times"].Value, CultureInfo.InvariantCulture),
                        2,
                        Unfolding.MostPasses
                    )
                )
            );
        if (PartSign().Match(line.Text) is { Success: true } part)
            Parts.Add((part.Index, part.Groups["part"].Value.Trim()));
        else if (line.Words().All(word => Chord.Parse(word.Word) is not null))
            Chords.AddRange(line.Words().Select(word => (word.Column, Chord.Parse(word.Word)!.Value)));
    }

    // Signs may touch one another ("TIMT", "1&2&"); numbers of two digits stay together.
    private static IEnumerable<(int Column, string Sign)> Signs(TabLine line)
    {
        var text = line.Text;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] is ' ' or '|')
                continue;
            var length = char.IsAsciiDigit(text[i]) && i + 1 < text.Length && char.IsAsciiDigit(text[i + 1]) ? 2 : 1;
            yield return (i, text.Substring(i, length));
            i += length - 1;
        }
    }

    private static RightFinger? FingerOf(string sign) =>
        sign switch
        {
            "T" or "t" or "P" or "p" => RightFinger.T,
            "I" or "i" => RightFinger.I,
            "M" or "m" => RightFinger.M,
            _ => null,
        };

    /// <summary>
    /// What is counted within the full bar, in whole notes; signs before the first number belong to the beat before it, or, where
    /// the bar has no number, to the last. A number of two digits may have pushed what stands behind it, which is not used.
    /// </summary>
    public static List<(int Column, Fraction At)> Counted(
        IReadOnlyList<(int Column, string Sign)> signs,
        TimeSignature time
    )
    {
        var beat = time.IsCompound ? new Fraction(1, time.Unit) : time.Beat;
        var beats = (time.Bar / beat).Floor();
        var first = signs.FirstOrDefault(sign => char.IsAsciiDigit(sign.Sign[0])).Sign;
        var number = (first is null ? beats : int.Parse(first, CultureInfo.InvariantCulture) - 1) - 1;
        var counted = new List<(int Column, Fraction At)>();
        foreach (var (column, sign) in signs)
        {
            if (char.IsAsciiDigit(sign[0]))
                number = long.Parse(sign, CultureInfo.InvariantCulture) - 1;
            var within = sign switch
            {
                "&" or "+" => new Fraction(1, 2),
                "e" => new(1, 4),
                "a" => new(3, 4),
                _ => Fraction.Zero,
            };
            var at = beat * new Fraction(number) + (beat * within);
            if (counted.Count == 0 || (at > counted[^1].At && column > counted[^1].Column))
                counted.Add((column, at));
            if (sign.Length > 1)
                break;
        }
        return counted;
    }

    private const RegexOptions Any =
        RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant;

    [GeneratedRegex(@"\[(?<pass>\d{1,2})(, ?(?<pass>\d{1,2}))*|(?<![\w.])(?<pass>\d{1,2})\.(?=[_-])", Any, 1000)]
    private static partial Regex EndingSign();

    [GeneratedRegex(@"\b(?<times>\d{1,2}) ?times\b|\bx ?(?<times>\d{1,2})\b", Any, 1000)]
    private static partial Regex TimesSign();

    [GeneratedRegex(@"\bPart[: ]+(?<part>[^\[]{1,24}?)(?=\s{2,}|\[|$)|^\s*(?<part>[A-H])( part)?\s*:\s*$", Any, 1000)]
    private static partial Regex PartSign();
}
