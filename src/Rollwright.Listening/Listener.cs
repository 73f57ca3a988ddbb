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
    private static double Likeness(Spectrogram spectra, List<double> onsets, NoteTemplates templates)
    {
        var some = onsets.Count <= 200 ? onsets : onsets[..200];
        for (var round = 0; round < 2; round++)
            templates.Learn(NoteFinder.Explain(spectra, some, templates, 1));
        return NoteFinder.Explain(spectra, some, templates, 1).Average(item => item.Fit);
    }

    private static List<HeardNote> Kept(List<NoteFinder.Explained> explained, NoteTemplates templates)
    {
        var plucks = explained.Where(item => item.Fit >= ListeningTable.Of("fit")).ToList();
        // Most of what begins in a take of a banjo are plucks; in noise or speech a few resemble them by chance.
        if (plucks.Count < ListeningTable.Of("fewest") || plucks.Count < explained.Count / 2)
            return [];
        var usual = plucks.Select(item => item.Amounts[0]).Order().ElementAt(plucks.Count / 2);
        var (keep, floor) = (ListeningTable.Of("keep"), ListeningTable.Of("floor") * usual);
        var notes = new List<HeardNote>();
        foreach (var pluck in plucks)
        {
            for (var i = 0; i < pluck.Notes.Length; i++)
                if (pluck.Amounts[i] >= keep * pluck.Amounts[0] && pluck.Amounts[i] >= floor)
                    notes.Add(
                        new(
                            pluck.Onset,
                            templates.Lowest + pluck.Notes[i],
                            pluck.Fit * pluck.Amounts[i] / pluck.Amounts[0]
                        )
                    );
        }
        return notes;
    }
}
