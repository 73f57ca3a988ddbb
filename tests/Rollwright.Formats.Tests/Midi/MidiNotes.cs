using NAudio.Midi;

namespace Rollwright.Formats.Tests.Midi;

/// <summary>Notes of a standard MIDI file as NAudio reads them, an outside reader of the format.</summary>
public static class MidiNotes
{
    /// <param name="At">Quarters from the start.</param>
    /// <param name="Length">Quarters.</param>
    /// <param name="Key">MIDI key.</param>
    /// <param name="Channel">1 to 16.</param>
    public readonly record struct Sound(double At, double Length, int Key, int Channel);

    public static List<Sound> Read(byte[] file)
    {
        using var stream = new MemoryStream(file);
        var midi = new MidiFile(stream, strictChecking: false);
        var ticks = (double)midi.DeltaTicksPerQuarterNote;
        return
        [
            .. midi
                .Events.SelectMany(track => track)
                .OfType<NoteOnEvent>()
                .Where(on => on.Velocity > 0 && on.OffEvent is not null)
                .Select(on => new Sound(on.AbsoluteTime / ticks, on.NoteLength / ticks, on.NoteNumber, on.Channel))
                .OrderBy(note => note.At)
                .ThenBy(note => note.Key),
        ];
    }
}
