using Rollwright.Music.Metre;

namespace Rollwright.Formats.Midi;

/// <summary>What of a MIDI file is wanted, and what it cannot say itself.</summary>
public sealed record MidiChoice
{
    public static MidiChoice All { get; } = new();

    /// <summary>Counted from 1, as the tracks stand in the file; null for all.</summary>
    public int? Track { get; init; }

    /// <summary>1 to 16; null for all but 10, the drums of General MIDI.</summary>
    public int? Channel { get; init; }

    /// <summary>Whole notes that lead in to the first full bar; a MIDI file knows no pickup. Less than a bar.</summary>
    public Fraction Pickup { get; init; } = Fraction.Zero;
}
