using System.Collections.Immutable;
using Rollwright.Banjo.Data;
using Rollwright.Music.Metre;

namespace Rollwright.Sound.Band;

/// <summary>One sign of a written pattern; <c>data/band-patterns.txt</c> explains them.</summary>
public enum PatternSign
{
    Silence,
    Ring,
    Bass,
    Stroke,
    StrongStroke,
}

/// <summary>What an accompanist plays in bars of a metre.</summary>
/// <param name="Bars">One or more bars that follow each other; each divides its bar evenly.</param>
public sealed record Pattern(ImmutableArray<ImmutableArray<PatternSign>> Bars)
{
    private const string AnyMetre = "any";
    private const string Signs = ".-bxX";

    private static readonly Lazy<ImmutableArray<(string Part, string Metre, Pattern Pattern)>> Read = new(() =>
        Parse("band-patterns.txt", BuiltInData.Text("band-patterns.txt"))
    );

    /// <summary>The pattern of a part in a metre; where the tables do not name the metre, its beats are counted.</summary>
    /// <exception cref="ArgumentException">The tables do not know the part.</exception>
    public static Pattern Of(string part, TimeSignature time)
    {
        var own = Read.Value.Where(row => row.Part == part).ToList();
        foreach (var row in own)
        {
            if (row.Metre == time.ToString())
                return row.Pattern;
        }
        foreach (var row in own)
        {
            if (row.Metre == AnyMetre)
                return row.Pattern.OverBeats((int)Math.Max(1, (time.Bar / time.Beat).Floor()));
        }
        throw new ArgumentException($"No pattern is known for '{part}'.", nameof(part));
    }

    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableArray<(string Part, string Metre, Pattern Pattern)> Parse(string file, string text) =>
        [
            .. DataTable
                .Parse(file, text, "part", "metre", "pattern", "source")
                .Rows.Select(row => (row["part"], row["metre"], new Pattern(BarsOf(row)))),
        ];

    private static ImmutableArray<ImmutableArray<PatternSign>> BarsOf(DataTable.Row row) =>
        [
            .. row["pattern"]
                .Split('/')
                .Select(bar =>
                    bar.Split(' ', StringSplitOptions.RemoveEmptyEntries)
                        .Select(sign => SignOf(row, sign))
                        .ToImmutableArray()
                ),
        ];

    private static PatternSign SignOf(DataTable.Row row, string sign) =>
        sign.Length == 1 && Signs.Contains(sign[0], StringComparison.Ordinal)
            ? (PatternSign)Signs.IndexOf(sign[0], StringComparison.Ordinal)
            : throw row.Wrong("pattern", $"'{sign}' is none of the signs {string.Join(' ', Signs.ToCharArray())}");

    // The first sign stands on the first beat, the last on each other one.
    private Pattern OverBeats(int beats) =>
        new([
            [Bars[0][0], .. Enumerable.Repeat(Bars[0][^1], beats - 1)],
        ]);
}
