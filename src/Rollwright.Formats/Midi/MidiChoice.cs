using Rollwright.Music.Metre;

namespace Rollwright.Formats.Midi;

/// <summary>What of a MIDI file is wanted, and what it cannot say itself.</summary>
public sealed record MidiChoice
{
    /// <summary>The melody, as far as the reader can tell; it says what it took.</summary>
    public static MidiChoice Melody { get; } = new();

    /// <summary>All tracks and channels but the drums together, instead of the melody alone.</summary>
    public bool Together { get; init; }

    /// <summary>Counted from 1, as the tracks stand in the file; null for any.</summary>
    public int? Track { get; init; }

    /// <summary>1 to 16; null for any but 10, the drums of General MIDI.</summary>
    public int? Channel { get; init; }

    /// <summary>Whole notes that lead in to the first full bar; a MIDI file knows no pickup. Less than a bar.</summary>
    public Fraction Pickup { get; init; } = Fraction.Zero;
}
