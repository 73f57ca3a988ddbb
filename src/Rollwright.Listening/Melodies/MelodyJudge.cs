namespace Rollwright.Listening.Melodies;

/// <summary>
/// Whether what was heard is a melody: most of what sounds is clear notes, which stand near the semitones of one tuning and
/// stay where they are. Speech glides, noise is not clear. The bounds are assumptions, tried on the tests' sounds.
/// </summary>
internal static class MelodyJudge
{
    private const int FewestNotes = 4;
    private const double LeastClear = 0.5;

    // Semitones, means over the notes: off the nearest of the tuning; from the first half of a note to its second.
    private const double MostAway = 0.16;
    private const double MostDrift = 0.3;

    // 25 dB below the loud part nothing is expected of the sound.
    private const double Sounding = 0.003;

    /// <param name="frames">The track.</param>
    /// <param name="notes">The notes that were made of it.</param>
    /// <param name="offset">Semitones that the player is above a' = 440 Hz.</param>
    public static bool IsMelody(List<PitchFrame> frames, List<MelodyNote> notes, double offset)
    {
        if (notes.Count < FewestNotes || notes.Select(note => note.Pitch).Distinct().Count() < 2)
            return false;
        var loud = frames.Select(frame => frame.Power).Order().ElementAt((int)(0.9 * (frames.Count - 1)));
        var sounding = frames.Count(frame => frame.Power > Sounding * loud);
        var (clear, away, drift, count) = (0, 0.0, 0.0, 0);
        foreach (var note in notes)
        {
            var keys = Keys(frames, note, offset);
            clear += keys.Count;
            if (keys.Count < 8)
                continue;
            var half = keys.Count / 2;
            away += Math.Abs(keys.Average());
            drift += Math.Abs(keys.Take(half).Average() - keys.Skip(half).Average());
            count++;
        }
        return count >= FewestNotes
            && clear >= LeastClear * sounding
            && away <= MostAway * count
            && drift <= MostDrift * count;
    }

    // How far the clear frames of a note are above it.
    private static List<double> Keys(List<PitchFrame> frames, MelodyNote note, double offset)
    {
        var keys = new List<double>();
        var (from, to) = ((int)(note.Onset / PitchTrack.Hop), (int)(note.End / PitchTrack.Hop));
        for (var i = from; i < Math.Min(to, frames.Count); i++)
        {
            var (best, most, sum) = (0.0, 0f, 0f);
            foreach (var (key, chance) in frames[i].Candidates)
            {
                var above = key - offset - note.Pitch;
                if (Math.Abs(above) >= 0.7)
                    continue;
                sum += chance;
                if (chance > most)
                    (best, most) = (above, chance);
            }
            if (sum >= 0.3f)
                keys.Add(best);
        }
        return keys;
    }
}
