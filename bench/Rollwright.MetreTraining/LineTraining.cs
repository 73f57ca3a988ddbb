using Rollwright.Listening.Melodies;
using Rollwright.Listening.Rhythm;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.MetreTraining;

/// <summary>The table of melodies alone: <c>data/metres.txt</c>.</summary>
internal static class LineTraining
{
    private const string About =
        "# How likely a kind of beginning is at each place of a bar, in eighths: natural logarithms of odds against its share in\n"
        + "# tunes of any metre; first, last: of the chance that the first or the last note of a tune stands there. Trained on an\n"
        + "# open collection by bench/Rollwright.MetreTraining (docs/listening.md).\n";

    public static string Train(IReadOnlyList<Tune> tunes)
    {
        var place = new Fraction(1, 8 * RhythmGrid.PerStep);
        var counts = new MetreCounts(MetreTable.LineKinds);
        foreach (var time in (TimeSignature[])[new(4, 4), new(6, 8), new(3, 4), new(9, 8)])
        {
            var (steps, count) = ((int)(time.Bar / new Fraction(1, 8)).ToDouble(), 0);
            counts.Open(time, steps);
            foreach (
                var tune in tunes.Where(tune =>
                    tune.Time == time || (time == TimeSignature.Common && tune.Time == TimeSignature.Cut)
                )
            )
            {
                if (tune.Bars.Any(bar => bar.Time.Bar != time.Bar))
                    continue;
                var played = tune.Played();
                if (played.Length < 16)
                    continue;
                // Where the first whole bar begins, and the first note before or in it.
                var opening = tune.Bars[tune.Order[0]];
                var pickup = opening.IsPartial ? opening.Length : Fraction.Zero;
                var places = played.Select(note => ((note.At - played[0].At) / place).ToDouble()).ToList();
                if (places.Any(at => at != Math.Floor(at)))
                    continue;
                var start = ((played[0].At - pickup) / new Fraction(1, 8)).ToDouble();
                if (start != Math.Floor(start))
                    continue;
                var line = MetreEvidence.Of(
                    [.. places.Select(at => (int)at)],
                    (int)((played[^1].End - played[0].At) / place).ToDouble(),
                    [.. played.Select(note => note.Pitch.Midi)],
                    RhythmGrid.PerStep
                );
                counts.Add(time, (int)start + (2 * steps), line);
                count++;
            }
            Console.WriteLine($"{time}: {count} tunes");
        }
        return counts.Table(About);
    }
}
