using Rollwright.Audio.Reading;
using Rollwright.Music.Metre;

namespace Rollwright.Listening.Melodies;

/// <summary>Hears one unaccompanied line (fiddle, whistle, voice) and writes it out as a tune.</summary>
public static class MelodyListener
{
    /// <summary>The longest melody that is listened to; what comes after it is not read.</summary>
    public const double MostMinutes = 30;

    // Fewer notes are no melody.
    private const int FewestNotes = 4;

    // Of what sounds, so much is in notes that are clear, and so near do the notes stand to semitones of one tuning; speech
    // and noise do not (measured on the tests' speech and noise).
    private const double LeastClear = 0.5;
    private const double MostAway = 0.16;
    private const double LeastSteady = 0.6;

    /// <summary>The same sound gives the same tune.</summary>
    /// <param name="sound">One channel; the pitches of a melody lie below 3.2 kHz.</param>
    /// <param name="tempo">Beats a minute of the metre, where it is known; quarters where no metre is given.</param>
    /// <param name="time">The metre, where it is known.</param>
    public static HeardMelody Listen(ISoundSource sound, double? tempo = null, TimeSignature? time = null)
    {
        ArgumentNullException.ThrowIfNull(sound);
        var frames = PitchTrack.Of(sound, (int)(MostMinutes * 60 / PitchTrack.Hop));
        var (offset, _) = ConcertPitch.Of(frames);
        var notes = MelodyNotes.Of(frames, offset);
        if (!IsMelody(frames, notes, offset))
            return new([], 0, null);
        var beat = (time?.Beat ?? new Fraction(1, 4)) / new Fraction(1, 8);
        var grid = RhythmGrid.Of(notes, tempo is { } given ? 60 / given / beat.ToDouble() : null);
        var (found, first) = MetreFinder.Of(grid, [.. notes.Select(note => note.Pitch)], time);
        return new([.. notes], 100 * offset, MelodyTune.Of(notes, grid, found, first));
    }

    private static bool IsMelody(List<PitchFrame> frames, List<MelodyNote> notes, double offset)
    {
        if (notes.Count < FewestNotes)
            return false;
        var loud = frames.Select(frame => frame.Power).Order().ElementAt((int)(0.9 * (frames.Count - 1)));
        var sounding = frames.Count(frame => frame.Power > 0.003 * loud);
        var (clear, steady, away, count) = (0.0, 0, 0.0, 0);
        foreach (var note in notes)
        {
            var (from, to) = ((int)(note.Onset / PitchTrack.Hop), (int)(note.End / PitchTrack.Hop));
            var (sum, weight) = (0.0, 0.0);
            var last = double.NaN;
            for (var i = from; i < Math.Min(to, frames.Count); i++)
            {
                var near = frames[i].Candidates.Where(item => Math.Abs(item.Key - offset - note.Pitch) < 0.7).ToList();
                var chance = near.Sum(item => (double)item.Chance);
                if (chance < 0.3)
                {
                    last = double.NaN;
                    continue;
                }
                var key = near.MaxBy(item => item.Chance).Key;
                (sum, weight, clear) = (sum + (chance * key), weight + chance, clear + 1);
                steady += Math.Abs(key - last) < 0.08 ? 1 : 0;
                last = key;
            }
            if (weight <= 0)
                continue;
            away += Math.Abs((sum / weight) - offset - note.Pitch);
            count++;
        }
        return count > 0
            && clear / Math.Max(1, sounding) >= LeastClear
            && away / count <= MostAway
            && steady / Math.Max(1, clear) >= LeastSteady;
    }
}
