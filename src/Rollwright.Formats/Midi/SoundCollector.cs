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
        var places = new Dictionary<(int Track, int Channel), List<MidiSound>>();
        for (var track = 0; track < file.Tracks; track++)
        {
            if (choice.Track is { } wanted && wanted != track + 1)
                continue;
            foreach (var on in file.Events[track].OfType<NoteOnEvent>().Where(on => on.Velocity > 0))
            {
                if (choice.Channel is null ? on.Channel == Drums : on.Channel != choice.Channel)
                    continue;
                if (!places.TryGetValue((track + 1, on.Channel), out var own))
                    places.Add((track + 1, on.Channel), own = []);
                own.Add(Sound(on, track + 1));
            }
        }
        var sounds = Chosen(places);
        if (sounds.Count > MidiReader.MostNotes)
        {
            log.Error(1, 1, $"more than {MidiReader.MostNotes} notes; the rest is left out", "give the tune alone");
            sounds.RemoveRange(MidiReader.MostNotes, sounds.Count - MidiReader.MostNotes);
        }
        return [.. sounds.OrderBy(sound => sound.On).ThenBy(sound => sound.Key)];
    }

    // The melody: of the places with at least half as many notes as the fullest, the one that lies highest (common practice,
    // no source).
    private List<MidiSound> Chosen(Dictionary<(int Track, int Channel), List<MidiSound>> places)
    {
        if (places.Count < 2)
            return places.Values.FirstOrDefault() ?? [];
        var names = string.Join(", ", places.Keys.Order().Select(Name));
        if (choice.Together)
        {
            log.NoteOnce(1, 1, $"notes of several tracks or channels are put together: {names}");
            return [.. places.Values.SelectMany(sounds => sounds)];
        }
        var full = places.Values.Max(sounds => sounds.Count);
        var (place, melody) = places
            .Where(one => one.Value.Count * 2 >= full)
            .OrderBy(one => one.Key)
            .MaxBy(one => one.Value.Average(sound => sound.Key));
        log.NoteOnce(1, 1, $"{Name(place)} is read as the melody; notes stand in {names}");
        return melody;
    }

    private static string Name((int Track, int Channel) place) => $"track {place.Track} channel {place.Channel}";

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
