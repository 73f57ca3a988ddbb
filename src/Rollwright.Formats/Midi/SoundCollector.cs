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
        var sounds = new List<MidiSound>();
        var places = new HashSet<(int Track, int Channel)>();
        for (var track = 1; track <= tracks.Count; track++)
        {
            if (choice.Track is null || choice.Track == track)
                AddTrack(track, tracks[track - 1].OfType<KeyEvent>().Where(IsWanted), sounds, places);
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

    private bool IsWanted(KeyEvent one) => choice.Channel is { } wanted ? one.Channel == wanted : one.Channel != Drums;

    private void AddTrack(int track, IEnumerable<KeyEvent> events, List<MidiSound> sounds, HashSet<(int, int)> places)
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
                places.Add((track, one.Channel));
                waiting.Enqueue(sounds.Count);
                sounds.Add(new(at, at + 1, one.Key));
            }
            else if (waiting.TryDequeue(out var ended))
            {
                sounds[ended] = sounds[ended] with { Off = at };
            }
        }
        foreach (var _ in struck.Values.SelectMany(waiting => waiting))
            log.Warning(track, 1, "a note does not end; it is taken for a quarter note", "write the file anew");
    }
}
