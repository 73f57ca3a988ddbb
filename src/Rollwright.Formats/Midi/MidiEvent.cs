using System.Collections.Immutable;

namespace Rollwright.Formats.Midi;

/// <summary>What a track says at a time.</summary>
/// <param name="At">Ticks from the start.</param>
/// <param name="Track">Counted from 1.</param>
internal abstract record MidiEvent(long At, int Track);

/// <summary>A key is struck, or let go.</summary>
/// <param name="At">Ticks from the start.</param>
/// <param name="Track">Counted from 1.</param>
/// <param name="Channel">1 to 16.</param>
/// <param name="Key">0 to 127; 60 is middle C.</param>
/// <param name="IsOn">Struck.</param>
internal sealed record KeyEvent(long At, int Track, int Channel, int Key, bool IsOn) : MidiEvent(At, Track);

/// <summary>Words or facts about the music, by their kind in the standard.</summary>
internal sealed record MetaEvent(long At, int Track, byte Kind, ImmutableArray<byte> Data) : MidiEvent(At, Track)
{
    public const byte TrackName = 0x03;
    public const byte EndOfTrack = 0x2F;
    public const byte Tempo = 0x51;
    public const byte Metre = 0x58;
    public const byte Key = 0x59;

    /// <summary>What the standard says of a kind: its name and its length in bytes; null for kinds of any length.</summary>
    public static (string Name, int Length)? Known(byte kind) =>
        kind switch
        {
            Tempo => ("tempo", 3),
            Metre => ("metre", 4),
            Key => ("key", 2),
            _ => null,
        };
}
