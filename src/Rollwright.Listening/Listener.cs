using Rollwright.Audio;
using Rollwright.Listening.Onsets;
using Rollwright.Listening.Pitching;
using Rollwright.Listening.Spectra;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening;

/// <summary>Hears what was played in a recording of a five-string banjo; half-way, see the README of this room.</summary>
public static class Listener
{
    /// <summary>The notes of a recording; none where no plucked notes are found. Same sound, same answer.</summary>
    public static Heard Listen(Samples sound)
    {
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
        return new([.. Kept(NoteFinder.Explain(spectra, onsets, templates, price), templates)], cents);
    }

    // How well the beginnings are explained by one note each, once its partials were learnt from them.
    private static double Likeness(Spectrogram spectra, List<Onset> onsets, NoteTemplates templates)
    {
        var some = onsets.Count <= 200 ? onsets : onsets[..200];
        for (var round = 0; round < 2; round++)
            templates.Learn(NoteFinder.Explain(spectra, some, templates, 1));
        return NoteFinder.Explain(spectra, some, templates, 1).Select(item => item.Fit).DefaultIfEmpty(0).Average();
    }

    private static List<HeardNote> Kept(List<NoteFinder.Explained> explained, NoteTemplates templates)
    {
        var plucks = explained.Where(item => item.Fit >= ListeningTable.Of("fit")).ToList();
        // Most of what begins in a take of a banjo are plucks; in noise or speech a few resemble them by chance.
        if (plucks.Count < ListeningTable.Of("fewest") || plucks.Count < explained.Count / 2)
            return [];
        var usual = plucks.Select(item => item.Best.Amounts.Max()).Order().ElementAt(plucks.Count / 2);
        var floor = ListeningTable.Of("floor") * usual;
        return
        [
            .. plucks
                .Where(item => item.Best.Amounts.Max() >= floor)
                .SelectMany(item => item.Best.Notes.Select(note => new HeardNote(item.Onset.Time, templates.Lowest + note, item.Fit))),
        ];
    }
}
