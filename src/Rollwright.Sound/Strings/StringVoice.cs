using System.Collections.Immutable;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Sound.Strings;

/// <summary>How one string rings; a row of <c>data/string-voices.txt</c>, where the columns are explained.</summary>
/// <param name="String">1 to 5.</param>
/// <param name="Fast">Seconds to −60 dB across the membrane, open string.</param>
/// <param name="Slow">The same along the membrane.</param>
/// <param name="FastHalving">Semitones up the neck that halve the fast time.</param>
/// <param name="SlowHalving">The same for the slow time.</param>
/// <param name="High">Seconds to −60 dB near 6 kHz, at every fret.</param>
/// <param name="Bright">Hz, where the pluck's spectrum begins to fall, open string.</param>
public sealed record StringVoice(
    int String,
    double Fast,
    double Slow,
    double FastHalving,
    double SlowHalving,
    double High,
    double Bright
)
{
    private static readonly Lazy<ImmutableArray<StringVoice>> Read = new(() =>
        Parse("string-voices.txt", BuiltInData.Text("string-voices.txt"))
    );

    /// <summary>Strings 1 to 5, in that order.</summary>
    public static ImmutableArray<StringVoice> All => Read.Value;

    public double FastAt(double semitones) => Fast * Math.Pow(2, -semitones / FastHalving);

    public double SlowAt(double semitones) => Slow * Math.Pow(2, -semitones / SlowHalving);

    public double BrightAt(double semitones) => Bright * Math.Pow(2, semitones / 12);

    /// <exception cref="DataException">A row is wrong, or a string is missing.</exception>
    public static ImmutableArray<StringVoice> Parse(string file, string text)
    {
        var rows = DataTable
            .Parse(file, text, "string", "fast", "slow", "fast-halving", "slow-halving", "high", "bright", "source")
            .Rows;
        var voices = ImmutableArray.CreateBuilder<StringVoice>();
        foreach (var row in rows)
        {
            if (row.Whole("string") != voices.Count + 1)
                throw row.Wrong($"strings stand in order; this row is string {voices.Count + 1}");
            voices.Add(
                new(
                    row.Whole("string"),
                    Positive(row, "fast"),
                    Positive(row, "slow"),
                    Positive(row, "fast-halving"),
                    Positive(row, "slow-halving"),
                    Positive(row, "high"),
                    Positive(row, "bright")
                )
            );
        }
        if (voices.Count != Neck.Strings)
            throw new DataException(file, 1, $"a banjo has {Neck.Strings} strings, not {voices.Count}");
        return voices.ToImmutable();
    }

    private static double Positive(DataTable.Row row, string column) =>
        row.Number(column) is > 0 and var value ? value : throw row.Wrong($"{column} must be more than 0");
}
