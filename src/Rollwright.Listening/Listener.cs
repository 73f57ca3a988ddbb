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
    /// <summary>The notes of a recording; none where no plucked notes are found. Same sound, same answer.</summary>
    public static Heard Listen(Samples sound, ListenOptions? options = null)
    {
        options ??= ListenOptions.Default;
        ArgumentNullException.ThrowIfNull(sound);
        var mono = OneSide.Of(sound);
        var spectra = Spectrogram.Of(
            mono,
            sound.Rate,
            ListeningTable.Of("window"),
            (int)ListeningTable.Of("overlap"),
            ListeningTable.Of("top")
        );
        var onsets = OnsetFinder.Find(spectra);
        if (onsets.Count == 0)
            return new([], 0);
        var (cents, templates) = TuningOffset
            .Likely(mono, sound.Rate)
            .Select(cents => (cents, new NoteTemplates(spectra, cents)))
            .MaxBy(one => Likeness(spectra, onsets, one.Item2));
        // Dear at first, so that a note is taken for one before its partials are known well, then cheaper.
        var price = ListeningTable.Of("sparse");
        for (var round = (int)ListeningTable.Of("rounds"); round > 0; round--)
            templates.Learn(NoteFinder.Explain(spectra, onsets, templates, price * (1 + round)));
        var moments = Moments(NoteFinder.Explain(spectra, onsets, templates, price), templates);
        return moments.Count == 0 ? new([], cents) : TakeWriter.Write(moments, cents, options);
    }

    // How well the beginnings are explained by one note each, once its partials were learnt from them.
    private static double Likeness(Spectrogram spectra, List<Onset> onsets, NoteTemplates templates)
    {
        var some = onsets.Count <= 200 ? onsets : onsets[..200];
        for (var round = 0; round < 2; round++)
            templates.Learn(NoteFinder.Explain(spectra, some, templates, 1));
        return NoteFinder.Explain(spectra, some, templates, 1).Select(item => item.Fit).DefaultIfEmpty(0).Average();
    }

    private static List<Moment> Moments(List<NoteFinder.Explained> explained, NoteTemplates templates)
    {
        var plucks = explained.Where(item => item.Fit >= ListeningTable.Of("fit")).ToList();
        // Most of what begins in a take of a banjo are plucks; in noise or speech a few resemble them by chance.
        if (plucks.Count < ListeningTable.Of("fewest") || plucks.Count < explained.Count / 2)
            return [];
        var floor = ListeningTable.Of("floor") * Median(plucks.Select(item => item.Best.Amounts.Max()));
        plucks.RemoveAll(item => item.Best.Amounts.Max() < floor);
        var strength = Median(plucks.Select(item => item.Onset.Strength));
        return [.. plucks.Select(item => MomentOf(item, templates, item.Onset.Strength / strength))];
    }

    private static Moment MomentOf(NoteFinder.Explained item, NoteTemplates templates, double strength)
    {
        var (none, full) = (ListeningTable.Of("attack-none"), ListeningTable.Of("attack-full"));
        return new(
            item.Onset.Time,
            [
                .. item.Ways.Take((int)ListeningTable.Of("ways"))
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
