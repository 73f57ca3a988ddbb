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
        var cents = TuningOffset.Find(mono, sound.Rate);
        var templates = new NoteTemplates(spectra, cents);
        for (var round = 0; round < ListeningTable.Of("rounds"); round++)
            templates.Learn(NoteFinder.Explain(spectra, onsets, templates));
        return new([.. Kept(NoteFinder.Explain(spectra, onsets, templates), templates)], cents);
    }

    private static List<HeardNote> Kept(List<NoteFinder.Explained> explained, NoteTemplates templates)
    {
        var plucks = explained.Where(item => item.Fit >= ListeningTable.Of("fit")).ToList();
        // Most of what begins in a take of a banjo are plucks; in noise or speech a few resemble them by chance.
        if (plucks.Count < ListeningTable.Of("fewest") || plucks.Count < explained.Count / 2)
            return [];
        var usual = plucks.Select(item => item.Amounts.Max()).Order().ElementAt(plucks.Count / 2);
        var (keep, floor) = (ListeningTable.Of("keep"), ListeningTable.Of("floor") * usual);
        var notes = new List<HeardNote>();
        foreach (var pluck in plucks)
        {
            var strongest = pluck.Amounts.Max();
            for (var note = 0; note < templates.Count; note++)
                if (pluck.Amounts[note] >= keep * strongest && pluck.Amounts[note] >= floor)
                    notes.Add(new(pluck.Onset, templates.Lowest + note, pluck.Fit * pluck.Amounts[note] / strongest));
        }
        return notes;
    }
}
