using System.Collections.Immutable;
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

    /// <summary>Whole notes; another than the metre's step where the tune divides it, or a bar is no multiple of it.</summary>
    public required Fraction Length { get; init; }

    /// <summary>
    /// Which step of the metre this is, from 0; -1 for a step between those, which is only there because the tune has a
    /// note at it.
    /// </summary>
    public required int Main { get; init; }

    public bool IsBetween => Main < 0;

    /// <summary>How a slur at this step stands in the metre: as <see cref="Strength"/>, 0 within a step of the metre.</summary>
    public int SlurStrength => IsBetween ? 0 : Strength;

    /// <summary>Strength of the place in the metre: 3 bar, 2 beat, 1 between.</summary>
    public required int Strength { get; init; }

    /// <summary>Key of the melody note struck at this step; null where none is.</summary>
    public int? Onset { get; init; }

    /// <summary>Keys struck together with the melody note; empty in a tune of one line.</summary>
    public ImmutableArray<int> Also { get; init; } = [];

    /// <summary>How much the tune would miss that note, in thousandths of a plain off-beat step.</summary>
    public int Weight { get; init; }

    /// <summary>The tune has ended: nothing is wished any more, and the last note may ring.</summary>
    public bool IsAfterTheEnd { get; init; }

    /// <summary>Key of the melody note that sounds at this step, struck here or before; null in a rest.</summary>
    public int? Sounding { get; init; }

    /// <summary>The chord of the moment; null where nothing is known.</summary>
    public Chord? Chord { get; init; }
}
