using NAudio.Midi;
using Rollwright.Formats.Messages;

namespace Rollwright.Formats.Midi;

/// <summary>Takes the notes that are wanted out of the tracks and channels of a MIDI file.</summary>
internal sealed class SoundCollector(MidiFile file, MidiChoice choice, MessageLog log)
{
    private const int Drums = 10;

    /// <summary>In order of time and, together, from the lowest.</summary>
    public List<MidiSound> Collect()
    {
        var sounds = new List<MidiSound>();
        var places = new HashSet<(int Track, int Channel)>();
        for (var track = 0; track < file.Tracks; track++)
        {
            if (choice.Track is { } wanted && wanted != track + 1)
                continue;
            foreach (var on in file.Events[track].OfType<NoteOnEvent>().Where(on => on.Velocity > 0))
            {
                if (choice.Channel is null ? on.Channel == Drums : on.Channel != choice.Channel)
                    continue;
                places.Add((track + 1, on.Channel));
                sounds.Add(Sound(on, track + 1));
            }
        }
        if (places.Count > 1)
            log.NoteOnce(
                1,
                1,
                "notes of several tracks or channels are put together: "
                    + string.Join(", ", places.Order().Select(place => $"track {place.Track} channel {place.Channel}"))
            );
        if (sounds.Count > MidiReader.MostNotes)
        {
            log.Error(1, 1, $"more than {MidiReader.MostNotes} notes; the rest is left out", "give the tune alone");
            sounds.RemoveRange(MidiReader.MostNotes, sounds.Count - MidiReader.MostNotes);
        }
        return [.. sounds.OrderBy(sound => sound.On).ThenBy(sound => sound.Key)];
    }

    private MidiSound Sound(NoteOnEvent on, int track)
    {
        double ticks = file.DeltaTicksPerQuarterNote;
        var start = on.AbsoluteTime / ticks;
        if (on.OffEvent is { } off)
            return new(start, Math.Max(start, off.AbsoluteTime / ticks), on.NoteNumber);
        log.Warning(track, 1, "a note does not end; it is taken for a quarter note", "write the file anew");
        return new(start, start + 1, on.NoteNumber);
    }
}
