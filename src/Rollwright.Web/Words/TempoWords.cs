using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;

namespace Rollwright.Web.Words;

/// <summary>Tempos in words.</summary>
public static class TempoWords
{
    /// <summary>"comfortable up to 96 half notes a minute, limited by bars 4, 7"; empty where nothing asks for time.</summary>
    public static string Comfortable(Break played)
    {
        var limit = TempoLimit.Of(played);
        if (limit.PerMinute is not { } whole)
            return "";
        var numbering = played.Numbering;
        var bars = limit.Limiting.Length == 1 ? "bar" : "bars";
        var shown = limit.Limiting.Take(MostBars).Select(bar => numbering[bar].Name);
        var more = limit.Limiting.Length > MostBars ? " and others" : "";
        return $"comfortable up to {Math.Floor(whole):0} {played.Tempo.UnitName}s a minute, limited by {bars} {string.Join(", ", shown)}{more}";
    }

    private const int MostBars = 4;
}
