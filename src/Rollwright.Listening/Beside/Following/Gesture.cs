using System.Collections.Immutable;

namespace Rollwright.Listening.Beside.Following;

/// <summary>Notes that begin together, as heard or as meant: a pluck, a pinch, a slur.</summary>
/// <param name="At">Seconds where heard, whole notes where meant.</param>
/// <param name="Pitches">MIDI keys.</param>
/// <param name="Notes">Indices of the notes, in the order of the pitches.</param>
internal sealed record Gesture(double At, ImmutableArray<int> Pitches, ImmutableArray<int> Notes)
{
    /// <summary>Joins what begins no later than so much after the first of a gesture.</summary>
    /// <param name="notes">By time.</param>
    public static List<Gesture> Join(IReadOnlyList<(double At, int Pitch)> notes, double within)
    {
        var gestures = new List<Gesture>();
        for (var i = 0; i < notes.Count; i++)
        {
            if (gestures.Count > 0 && notes[i].At - gestures[^1].At <= within)
                gestures[^1] = gestures[^1] with
                {
                    Pitches = gestures[^1].Pitches.Add(notes[i].Pitch),
                    Notes = gestures[^1].Notes.Add(i),
                };
            else
                gestures.Add(new(notes[i].At, [notes[i].Pitch], [i]));
        }
        return gestures;
    }

    /// <summary>How many pitches both have, each counted once.</summary>
    public int Common(Gesture other)
    {
        var common = 0;
        for (var i = 0; i < Pitches.Length; i++)
            if (other.Pitches.Contains(Pitches[i]) && Pitches.IndexOf(Pitches[i]) == i)
                common++;
        return common;
    }
}
