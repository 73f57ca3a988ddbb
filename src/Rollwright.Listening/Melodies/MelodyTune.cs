using System.Collections.Immutable;
using Rollwright.Arranging.Chording;
using Rollwright.Music.Forms;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Listening.Melodies;

/// <summary>Puts notes on a grid into bars, and finds their key.</summary>
internal static class MelodyTune
{
    // A silence shorter than this many places is how the note was played, not a rest.
    private const int ShortestRest = RhythmGrid.PerStep;

    public static Tune Of(IReadOnlyList<MelodyNote> notes, RhythmGrid grid, TimeSignature time, int first)
    {
        var place = new Fraction(1, 8 * RhythmGrid.PerStep);
        var bar = (int)(time.Bar / place).ToDouble();
        // What stands before the first whole bar is a pickup.
        var pickup = first * RhythmGrid.PerStep % bar;
        var starts = new List<int> { 0 };
        for (var at = pickup == 0 ? bar : pickup; at <= grid.Onsets[^1]; at += bar)
            starts.Add(at);
        var last = Math.Max(Length(grid, notes.Count - 1, int.MaxValue) + grid.Onsets[^1], 1);
        var key = new Key(new PitchName(Letter.C));
        var bars = ImmutableArray.CreateBuilder<TuneBar>();
        for (var i = 0; i < starts.Count; i++)
        {
            var end =
                i + 1 < starts.Count ? starts[i + 1]
                : i == 0 && pickup > 0 ? pickup
                : starts[i] + bar;
            var isLast = i == starts.Count - 1;
            bars.Add(
                new()
                {
                    Length = place * (end - starts[i]),
                    Time = time,
                    Key = key,
                    Marks = isLast ? new() { SectionEnd = true } : BarMarks.None,
                    Notes = [.. In(starts[i], end)],
                }
            );
        }
        var quarter = new Fraction(1, 4);
        var beat = time.IsCompound ? time.Beat : quarter;
        var tune = new Tune
        {
            Key = key,
            Time = time,
            Tempo = new(beat, Math.Round(60 / (grid.Step * (beat / new Fraction(1, 8)).ToDouble()), 1)),
            Bars = bars.ToImmutable(),
        };
        return KeyFinder.WithKey(tune);

        IEnumerable<Note> In(int from, int to)
        {
            for (var i = 0; i < notes.Count; i++)
            {
                var (onset, end) = (grid.Onsets[i], grid.Onsets[i] + Length(grid, i, last));
                if (end <= from || onset >= to)
                    continue;
                var (begins, stops) = (Math.Max(from, onset), Math.Min(to, end));
                yield return new(
                    place * (begins - from),
                    place * (stops - begins),
                    Pitch.FromMidi(notes[i].Pitch, key.Spell(notes[i].Pitch)),
                    TiedFromBefore: onset < from
                );
            }
        }
    }

    // To the next note, unless there is silence between; the last to a whole step.
    private static int Length(RhythmGrid grid, int note, int last)
    {
        var (onset, end) = (grid.Onsets[note], grid.Ends[note]);
        if (note == grid.Onsets.Length - 1)
            return Math.Min(
                last - onset,
                (end - onset + RhythmGrid.PerStep - 1) / RhythmGrid.PerStep * RhythmGrid.PerStep
            );
        var next = grid.Onsets[note + 1];
        return next - end > ShortestRest ? end - onset : next - onset;
    }
}
