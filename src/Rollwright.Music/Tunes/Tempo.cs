using Rollwright.Music.Metre;

namespace Rollwright.Music.Tunes;

/// <summary>A tempo with its unit: half = 100 is another thing than quarter = 100.</summary>
/// <param name="Unit">The note value counted, in whole notes.</param>
/// <param name="PerMinute">Units a minute, more than zero.</param>
public readonly record struct Tempo(Fraction Unit, double PerMinute)
{
    /// <summary>Seconds that a whole note lasts.</summary>
    public double SecondsPerWhole => 60 / (PerMinute * Unit.ToDouble());

    /// <summary>What is counted, in words: "halves", "dotted quarters".</summary>
    public string UnitWords =>
        (Unit.Numerator, Unit.Denominator) switch
        {
            (1, 2) => "halves",
            (1, 4) => "quarters",
            (3, 8) => "dotted quarters",
            (1, 8) => "eighths",
            (1, 1) => "wholes",
            _ => $"{Unit} notes",
        };
}
