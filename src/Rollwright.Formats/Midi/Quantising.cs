using Rollwright.Music.Metre;

namespace Rollwright.Formats.Midi;

/// <summary>
/// Brings the times of notes to the grid that is meant: each quarter note is divided in 1, 2, 3, 4, 6, 8 or 12 parts,
/// whichever its notes keep best, a coarse one before a fine one.
/// </summary>
internal static class Quantising
{
    /// <param name="At">Whole notes from the start.</param>
    /// <param name="Length">Whole notes, more than zero; not over the next note that begins later.</param>
    /// <param name="Key">MIDI key.</param>
    public readonly record struct GridNote(Fraction At, Fraction Length, int Key);

    private static readonly int[] Divisions = [1, 2, 3, 4, 6, 8, 12];

    /// <summary>
    /// What a grid twice as fine costs, as a deviation in quarter notes: 0.02 is 10 ms at 120 a minute (assumption). So a
    /// triplet that is up to 17 ms off is not taken for thirty-seconds.
    /// </summary>
    private const double Fineness = 0.02;

    /// <summary>A gap before the next note that is no rest but the end of a stroke, in quarter notes (assumption).</summary>
    private const double Gap = 0.15;

    /// <param name="sounds">In order of time.</param>
    public static List<GridNote> Notes(List<MidiSound> sounds)
    {
        var starts = Starts(sounds);
        var notes = new List<GridNote>(sounds.Count);
        for (var first = 0; first < sounds.Count; )
        {
            var after = first + 1;
            while (after < sounds.Count && starts[after] == starts[first])
                after++;
            // Two notes that fall together on one key are one.
            foreach (var same in Enumerable.Range(first, after - first).GroupBy(i => sounds[i].Key).OrderBy(s => s.Key))
            {
                var last = sounds[same.MaxBy(i => sounds[i].Off)];
                var end = after < sounds.Count ? End(last, sounds[after].On, starts[after]) : End(last);
                var least = starts[first] + new Fraction(1, 32);
                if (end < least)
                    end = after < sounds.Count ? Fraction.Min(least, starts[after]) : least;
                notes.Add(new(starts[first], end - starts[first], last.Key));
            }
            first = after;
        }
        return notes;
    }

    /// <summary>
    /// How many starts were moved by more than a hundredth of a quarter note (5 ms at 120 a minute, what rounding to ticks
    /// comes to), the farthest in quarter notes, and where it was.
    /// </summary>
    public static (int Count, double Most, double At) Moved(List<MidiSound> sounds)
    {
        var moves = sounds.Zip(
            Starts(sounds),
            (sound, start) => (By: Math.Abs((start.ToDouble() * 4) - sound.On), sound.On)
        );
        var far = moves.Where(move => move.By > Rounding).ToList();
        var (most, at) = far.DefaultIfEmpty().MaxBy(move => move.By);
        return (far.Count, most, at);
    }

    private const double Rounding = 0.01;

    private static Fraction[] Starts(List<MidiSound> sounds)
    {
        var starts = new Fraction[sounds.Count];
        for (var first = 0; first < sounds.Count; )
        {
            // What comes just before a beat belongs to it.
            var beat = BeatOf(sounds[first].On);
            var after = first + 1;
            while (after < sounds.Count && BeatOf(sounds[after].On) == beat)
                after++;
            var division = Divisions.MinBy(d =>
                Enumerable.Range(first, after - first).Max(i => Miss(sounds[i].On - beat, d)) + Cost(d)
            );
            for (var i = first; i < after; i++)
                starts[i] = OnGrid(sounds[i].On, beat, division);
            first = after;
        }
        return starts;
    }

    private static Fraction End(MidiSound sound, double next, Fraction nextStart) =>
        sound.Off > next - Gap ? nextStart : Fraction.Min(End(sound), nextStart);

    private static Fraction End(MidiSound sound)
    {
        var beat = BeatOf(sound.Off);
        return OnGrid(sound.Off, beat, Divisions.MinBy(d => Miss(sound.Off - beat, d) + Cost(d)));
    }

    private static long BeatOf(double quarters) => (long)Math.Floor(quarters + 0.06);

    private static double Cost(int division) => Fineness * Math.Log2(division);

    private static double Miss(double within, int division) =>
        Math.Abs(within - (Math.Round(within * division) / division));

    private static Fraction OnGrid(double quarters, long beat, int division) =>
        new(Math.Max(0, (beat * division) + (long)Math.Round((quarters - beat) * division)), 4L * division);
}
