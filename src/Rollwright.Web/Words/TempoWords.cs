using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Music.Metre;

namespace Rollwright.Web.Words;

/// <summary>Tempos in words: counted in what the break counts in, for a tempo without its unit says nothing.</summary>
public static class TempoWords
{
    /// <summary>"halves", "dotted quarters".</summary>
    public static string Unit(Fraction unit) =>
        (unit.Numerator, unit.Denominator) switch
        {
            (1, 2) => "halves",
            (1, 4) => "quarters",
            (3, 8) => "dotted quarters",
            (1, 8) => "eighths",
            (1, 1) => "wholes",
            _ => $"{unit} notes",
        };

    /// <summary>"comfortable up to 96 halves a minute, limited by bars 4, 7"; empty where nothing asks for time.</summary>
    public static string Comfortable(Break played)
    {
        var limit = TempoLimit.Of(played);
        if (limit.PerMinute is not { } whole)
            return "";
        var numbering = played.Numbering;
        var bars = limit.Limiting.Length == 1 ? "bar" : "bars";
        var shown = limit.Limiting.Take(MostBars).Select(bar => numbering[bar].Name);
        var more = limit.Limiting.Length > MostBars ? " and others" : "";
        return $"comfortable up to {Math.Floor(whole):0} {Unit(limit.Unit)} a minute, limited by {bars} {string.Join(", ", shown)}{more}";
    }

    private const int MostBars = 4;
}
