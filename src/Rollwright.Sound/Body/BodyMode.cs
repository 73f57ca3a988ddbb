using System.Collections.Immutable;
using Rollwright.Banjo.Data;

namespace Rollwright.Sound.Body;

/// <summary>One resonance of the body; a row of <c>data/body-modes.txt</c>.</summary>
/// <param name="Hz">Centre, 20 to 20,000.</param>
/// <param name="Q">Centre over the width at half power, more than 0.5.</param>
/// <param name="Level">Gain at the centre.</param>
/// <param name="Side">Where it radiates to in stereo: −1 left, 1 right.</param>
public sealed record BodyMode(double Hz, double Q, double Level, double Side)
{
    /// <summary>Modes a body has at most: what the bank computes at a time.</summary>
    public const int Most = 16;

    private static readonly Lazy<ImmutableArray<BodyMode>> Read = new(() =>
        Parse("body-modes.txt", BuiltInData.Text("body-modes.txt"))
    );

    public static ImmutableArray<BodyMode> All => Read.Value;

    /// <exception cref="DataException">A row is wrong, or there are more than sixteen.</exception>
    public static ImmutableArray<BodyMode> Parse(string file, string text)
    {
        var modes = ImmutableArray.CreateBuilder<BodyMode>();
        foreach (var row in DataTable.Parse(file, text, "hz", "q", "level", "side", "source").Rows)
        {
            var mode = new BodyMode(row.Number("hz"), row.Number("q"), row.Number("level"), row.Number("side"));
            if (mode.Hz is < 20 or > 20_000)
                throw row.Wrong("hz is not from 20 to 20000");
            if (mode.Q <= 0.5)
                throw row.Wrong("q must be more than 0.5");
            if (mode.Side is < -1 or > 1)
                throw row.Wrong("side is not from -1 to 1");
            if (modes.Count == Most)
                throw row.Wrong($"a body has at most {Most} modes");
            modes.Add(mode);
        }
        return modes.ToImmutable();
    }
}
