using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Breaks;

/// <summary>One written bar of a break.</summary>
public sealed record BreakBar
{
    /// <summary>Whole notes; shorter than the metre's bar for pickups and the bars they complete.</summary>
    public required Fraction Length { get; init; }

    public required TimeSignature Time { get; init; }

    public BarMarks Marks { get; init; } = BarMarks.None;

    /// <summary>In order of time; together at one time means struck together, ordered by string from 1.</summary>
    public ImmutableArray<Stroke> Strokes { get; init; } = [];

    /// <summary>Chords as the hands know them (without the capo).</summary>
    public ImmutableArray<ChordAt> Chords { get; init; } = [];

    public bool IsPartial => Length < Time.Bar;
}
