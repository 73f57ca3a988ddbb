using Rollwright.Music.Chords;
using Rollwright.Music.Metre;

namespace Rollwright.Arranging.Wishes;

/// <summary>
/// One step of a written bar, and what the tune wishes there. Keys are MIDI keys as the hands know them: moved by the
/// setting, without the capo.
/// </summary>
public sealed record StepPlace
{
    /// <summary>Index of the written bar.</summary>
    public required int Bar { get; init; }

    /// <summary>Whole notes from the start of the bar.</summary>
    public required Fraction At { get; init; }

    /// <summary>Whole notes; another than the metre's step only where a bar is no multiple of it.</summary>
    public required Fraction Length { get; init; }

    /// <summary>Strength of the place in the metre: 3 bar, 2 beat, 1 between.</summary>
    public required int Strength { get; init; }

    /// <summary>Key of the melody note struck at this step; null where none is.</summary>
    public int? Onset { get; init; }

    /// <summary>How much the tune would miss that note, in thousandths of a plain off-beat step.</summary>
    public int Weight { get; init; }

    /// <summary>Key of a melody note struck half a step later; null where none is.</summary>
    public int? HalfOnset { get; init; }

    public int HalfWeight { get; init; }

    /// <summary>Key of the melody note that sounds at this step, struck here or before; null in a rest.</summary>
    public int? Sounding { get; init; }

    /// <summary>The chord of the moment; null where nothing is known.</summary>
    public Chord? Chord { get; init; }
}
