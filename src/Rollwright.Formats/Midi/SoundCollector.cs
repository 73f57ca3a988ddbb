using System.Runtime.InteropServices;
using Rollwright.Formats.Messages;

namespace Rollwright.Formats.Midi;

/// <summary>Takes the notes that are wanted out of the tracks and channels of a MIDI file.</summary>
internal sealed class SoundCollector(
    List<List<MidiEvent>> tracks,
    int ticksPerQuarter,
    MidiChoice choice,
    MessageLog log
)
{
    private const int Drums = 10;

    /// <summary>In order of time and, together, from the lowest.</summary>
    public List<MidiSound> Collect()
    {
        var places = new Dictionary<(int Track, int Channel), List<MidiSound>>();
        for (var track = 1; track <= tracks.Count; track++)
        {
            if (choice.Track is null || choice.Track == track)
                AddTrack(track, tracks[track - 1].OfType<KeyEvent>().Where(IsWanted), places);
        }
        var sounds = Chosen(places);
        if (sounds.Count > MidiReader.MostNotes)
        {
            log.Error(1, 1, $"more than {MidiReader.MostNotes} notes; the rest is left out", "give the tune alone");
            sounds.RemoveRange(MidiReader.MostNotes, sounds.Count - MidiReader.MostNotes);
        }
        return [.. sounds.OrderBy(sound => sound.On).ThenBy(sound => sound.Key)];
    }

    private bool IsWanted(KeyEvent one) => choice.Channel is { } wanted ? one.Channel == wanted : one.Channel != Drums;

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

    private void AddTrack(
        int track,
        IEnumerable<KeyEvent> events,
        Dictionary<(int Track, int Channel), List<MidiSound>> places
    )
    {
        // Of notes that were struck twice on one key, the one that was struck first ends first.
        var struck = new Dictionary<(int Channel, int Key), Queue<int>>();
        foreach (var one in events)
        {
            var at = (double)one.At / ticksPerQuarter;
            if (!struck.TryGetValue((one.Channel, one.Key), out var waiting))
                struck[(one.Channel, one.Key)] = waiting = [];
            if (one.IsOn)
            {
                if (!places.TryGetValue((track, one.Channel), out var sounds))
                    places[(track, one.Channel)] = sounds = [];
                waiting.Enqueue(sounds.Count);
                sounds.Add(new(at, at + 1, one.Key));
            }
            else if (waiting.TryDequeue(out var ended))
            {
                ref var sound = ref CollectionsMarshal.AsSpan(places[(track, one.Channel)])[ended];
                sound = sound with { Off = at };
            }
        }
        foreach (var _ in struck.Values.SelectMany(waiting => waiting))
            log.Warning(track, 1, "a note does not end; it is taken for a quarter note", "write the file anew");
    }
}
