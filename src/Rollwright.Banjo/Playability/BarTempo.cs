using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Playability;

/// <summary>The tempo up to which a written bar is comfortable, on all of its passes.</summary>
/// <param name="Bar">Index of the written bar, from 0.</param>
/// <param name="PerMinute">Of the break's tempo unit; null where nothing in the bar asks for time.</param>
/// <param name="At">Whole notes from the start of the bar: where its slowest demand is due.</param>
/// <param name="Words">What that demand is, as a sentence without bar and full stop; empty where there is none.</param>
public sealed record BarTempo(int Bar, double? PerMinute, Fraction At, string Words)
{
    /// <summary>Index of the written bar just before it as played, where its slowest demand begins there; null where it begins in the bar.</summary>
    public int? Before { get; init; }
}
