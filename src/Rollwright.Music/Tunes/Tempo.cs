using Rollwright.Music.Metre;

namespace Rollwright.Music.Tunes;

/// <summary>A tempo with its unit: half = 100 is another thing than quarter = 100.</summary>
/// <param name="Unit">The note value counted, in whole notes.</param>
/// <param name="PerMinute">Units a minute, more than zero.</param>
public readonly record struct Tempo(Fraction Unit, double PerMinute)
{
    /// <summary>Seconds that a whole note lasts.</summary>
    public double SecondsPerWhole => 60 / (PerMinute * Unit.ToDouble());

    /// <summary>"half note", "dotted quarter note": a tempo without its unit says nothing.</summary>
    public string UnitName =>
        (Unit.Numerator, Unit.Denominator) switch
        {
            (1, 1) => "whole note",
            (1, 2) => "half note",
            (3, 4) => "dotted half note",
            (1, 4) => "quarter note",
            (3, 8) => "dotted quarter note",
            (1, 8) => "eighth note",
            _ => $"{Unit} note",
        };
}
