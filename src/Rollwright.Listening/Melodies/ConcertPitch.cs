namespace Rollwright.Listening.Melodies;

/// <summary>How far a player is from a' = 440 Hz: the mean direction of all pitches round the circle of a semitone.</summary>
internal static class ConcertPitch
{
    /// <returns>Semitones from -0.5 to 0.5; and how much the pitches agree, 0 to 1.</returns>
    public static (double Offset, double Agreement) Of(List<PitchFrame> frames)
    {
        var (x, y, sum) = (0.0, 0.0, 0.0);
        foreach (var frame in frames)
        foreach (var (key, chance) in frame.Candidates)
        {
            if (chance < 0.5f)
                continue;
            var angle = 2 * Math.PI * key;
            (x, y, sum) = (x + (chance * Math.Cos(angle)), y + (chance * Math.Sin(angle)), sum + chance);
        }
        return sum <= 0 ? (0, 0) : (Math.Atan2(y, x) / (2 * Math.PI), Math.Sqrt((x * x) + (y * y)) / sum);
    }
}
