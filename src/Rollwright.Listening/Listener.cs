using Rollwright.Audio;
using Rollwright.Listening.Hands;
using Rollwright.Listening.Onsets;
using Rollwright.Listening.Pitching;
using Rollwright.Listening.Spectra;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening;

/// <summary>Hears what was played in a recording of a five-string banjo, and by which hands.</summary>
public static class Listener
{
    // So many beginnings teach what the notes of the instrument look like.
    private const int Enough = 400;

    /// <summary>The notes of a recording; none where no plucked notes are found. Same sound, same answer.</summary>
    public static Heard Listen(Samples sound, ListenOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(sound);
        return Listen([OneSide.Of(sound)], sound.Rate, options);
    }

    /// <summary>The same of a sound that comes in blocks, of which only half a minute is kept.</summary>
    /// <param name="blocks">One channel, in order.</param>
    /// <param name="rate">Samples a second.</param>
    /// <param name="options">What is known of the take.</param>
    /// <param name="progress">Told the seconds that were heard.</param>
    /// <param name="stop">Stops between pieces.</param>
    public static Heard Listen(
        IEnumerable<float[]> blocks,
        int rate,
        ListenOptions? options = null,
        IProgress<double>? progress = null,
        CancellationToken stop = default
    )
    {
        var (finder, offered, offset) = (new OnsetFinder(), new List<Rise>(), new TuningOffset());
        var (bins, binWidth) = (0, 0.0);
        foreach (var piece in Piece.Cut(blocks, rate))
        {
            stop.ThrowIfCancellationRequested();
            var spectra = Spectrogram.Of(
                piece.Sound,
                rate,
                ListeningTable.Of("window"),
                (int)ListeningTable.Of("overlap"),
                ListeningTable.Of("top")
            );
            (bins, binWidth) = (spectra.Bins, spectra.BinWidth);
            offered.AddRange(Rise.Of(spectra, finder.Offer(spectra), piece));
            offset.Add(piece.Sound, rate);
            progress?.Report(piece.Start + ((double)piece.Sound.Length / rate));
        }
        var rises = finder.Standing(offered, rise => rise.Onset).ToList();
        if (rises.Count == 0)
            return new([], 0);
        var some = rises.Take(Enough).ToList();
        var (cents, templates) = offset
            .Likely()
            .Select(cents => (cents, new NoteTemplates(bins, binWidth, cents)))
            .MaxBy(one => Likeness(some, one.Item2));
        stop.ThrowIfCancellationRequested();
        // Dear at first, so that a note is taken for one before its partials are known well, then cheaper.
        var price = ListeningTable.Of("sparse");
        for (var round = (int)ListeningTable.Of("rounds"); round > 0; round--)
            templates.Learn(NoteFinder.Explain(some, templates, price * (1 + round)));
        stop.ThrowIfCancellationRequested();
        var moments = Moments(NoteFinder.Explain(rises, templates, price), templates);
        return moments.Count == 0 ? new([], cents) : TakeWriter.Write(moments, cents, options ?? ListenOptions.Default);
    }

    // How well the beginnings are explained by one note each, once its partials were learnt from them.
    private static double Likeness(List<Rise> rises, NoteTemplates templates)
    {
        for (var round = 0; round < 2; round++)
            templates.Learn(NoteFinder.Explain(rises, templates, 1));
        return NoteFinder.Explain(rises, templates, 1).Average(item => item.Fit);
    }

    private static List<Moment> Moments(List<NoteFinder.Explained> explained, NoteTemplates templates)
    {
        var plucks = explained.Where(item => item.Fit >= ListeningTable.Of("fit")).ToList();
        // Most of what begins in a take of a banjo are plucks; in noise or speech a few resemble them by chance.
        if (plucks.Count < ListeningTable.Of("fewest") || plucks.Count < explained.Count / 2)
            return [];
        var floor = ListeningTable.Of("floor") * Median(plucks.Select(item => item.Best.Amounts.Max()));
        plucks.RemoveAll(item => item.Best.Amounts.Max() < floor);
        var strength = Median(plucks.Select(item => item.Rise.Onset.Strength));
        return [.. plucks.Select(item => MomentOf(item, templates, item.Rise.Onset.Strength / strength))];
    }

    private static Moment MomentOf(NoteFinder.Explained item, NoteTemplates templates, double strength)
    {
        var (none, full) = (ListeningTable.Of("attack-none"), ListeningTable.Of("attack-full"));
        return new(
            item.Rise.Onset.Time,
            [
                .. item
                    .Ways.Take((int)ListeningTable.Of("ways"))
                    .Select(way => new Moment.Way(
                        [.. way.Notes.Select(note => templates.Lowest + note)],
                        way.Cost - item.Best.Cost
                    )),
            ],
            Math.Clamp((strength - none) / (full - none), 0, 1),
            item.Fit
        );
    }

    private static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        return sorted.Length == 0 ? 0 : sorted[sorted.Length / 2];
    }
}
