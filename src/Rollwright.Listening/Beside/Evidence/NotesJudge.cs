using Rollwright.Listening.Beside.Following;

namespace Rollwright.Listening.Beside.Evidence;

/// <summary>Takes the notes heard for the truth: for notes that were recorded as such, without sound.</summary>
internal sealed class NotesJudge : IJudge
{
    public Verdict Of(Gesture meant, bool slurred, Gesture? heard, Place place)
    {
        if (heard is null)
            return Verdict.Missing(meant);
        // Each note heard answers one note meant: two strings may be meant to sound the same pitch.
        var left = heard.Pitches.ToList();
        var there = meant.Pitches.Select(left.Remove).ToList();
        var fates = new Fate[meant.Pitches.Length];
        for (var i = 0; i < fates.Length; i++)
        {
            if (there[i])
            {
                fates[i] = new(NoteLabel.Ok, null);
                continue;
            }
            int? instead = left.Count == 0 ? null : left.MinBy(pitch => Math.Abs(pitch - meant.Pitches[i]));
            if (instead is { } other)
                left.Remove(other);
            fates[i] = instead is null ? new(NoteLabel.Missing, null) : new(NoteLabel.Wrong, instead);
        }
        return new(fates, left, heard.At);
    }

    public IReadOnlyList<int> Added(Gesture heard, double next) => heard.Pitches;
}
