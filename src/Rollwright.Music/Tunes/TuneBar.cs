using System.Collections.Immutable;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;

namespace Rollwright.Music.Tunes;

/// <summary>
/// One written bar: what stands between two bar lines. It may be shorter than the metre asks (a pickup, the bar
/// before a repeat that a pickup completes); rests are where no note is.
/// </summary>
public sealed record TuneBar
{
    /// <summary>Whole notes; more than zero.</summary>
    public required Fraction Length { get; init; }

    /// <summary>
    /// One line of melody, in order of time, not overlapping. Where a file with chords in notes was read, notes that sound
    /// together have the same <see cref="Note.At"/> and stand from the lowest to the highest.
    /// </summary>
    public ImmutableArray<Note> Notes { get; init; } = [];

    /// <summary>Chord symbols that stand in this bar, in order of time.</summary>
    public ImmutableArray<ChordAt> Chords { get; init; } = [];

    public BarMarks Marks { get; init; } = BarMarks.None;

    public required TimeSignature Time { get; init; }

    public required Key Key { get; init; }

    /// <summary>Whether the bar is shorter than its metre.</summary>
    public bool IsPartial => Length < Time.Bar;
}
