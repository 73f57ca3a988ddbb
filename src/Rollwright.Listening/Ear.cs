using System.Collections.Immutable;
using Rollwright.Listening.Banjos;
using Rollwright.Listening.Onsets;
using Rollwright.Listening.Pitching;
using Rollwright.Listening.Spectra;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening;

/// <summary>What begins when in a recording, and how far its instrument is from a' = 440 Hz; no hands yet.</summary>
internal static class Ear
{
    // So many beginnings teach what the notes of the instrument look like.
    private const int Enough = 400;

    /// <summary>The moments of a recording, and what its notes look like.</summary>
    /// <param name="blocks">One channel, in order; only half a minute of it is kept.</param>
    /// <param name="rate">Samples a second.</param>
    /// <param name="banjo">The banjo, where it was learnt.</param>
    /// <param name="progress">Told the seconds that were heard.</param>
    /// <param name="stop">Stops between pieces.</param>
    public static Sounds Hear(
        IEnumerable<float[]> blocks,
        int rate,
        OwnBanjo? banjo,
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
        // A banjo is in tune with itself; speech and noise are not.
        if (rises.Count == 0 || offset.Sharpness < ListeningTable.Of("in-tune"))
            return new([], 0, null);
        var some = rises.Take(Enough).ToList();
        var (cents, templates) = offset
            .Likely()
            .Select(cents => (cents, new NoteTemplates(bins, binWidth, cents, banjo)))
            .MaxBy(one => Likeness(some, one.Item2));
        stop.ThrowIfCancellationRequested();
        // Dear at first, so that a note is taken for one before its partials are known well, then cheaper.
        var price = ListeningTable.Of("sparse");
        for (var round = (int)ListeningTable.Of("rounds"); round > 0; round--)
            templates.Learn(NoteFinder.Explain(some, templates, price * (1 + round)));
        stop.ThrowIfCancellationRequested();
        return new(
            Moments(NoteFinder.Explain(rises, templates, price), templates),
            cents - (banjo?.Cents ?? 0),
            templates
        );
    }

    /// <param name="Moments">By time; none where no plucked notes are found.</param>
    /// <param name="Cents">How far the instrument is above a' = 440 Hz.</param>
    /// <param name="Templates">What its notes look like; null where there are none.</param>
    public sealed record Sounds(List<Moment> Moments, double Cents, NoteTemplates? Templates)
    {
        /// <summary>Shares of the partials of a pitch that was heard.</summary>
        public ImmutableArray<double> Partials(int key) => Templates!.PartialsOf(key - Templates.Lowest);
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
        var falls = FallFinder.Of(plucks, templates);
        return
        [
            .. plucks.Select(
                (item, i) => MomentOf(item, templates, item.Rise.Onset.Strength / strength) with { Falls = falls[i] }
            ),
        ];
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
