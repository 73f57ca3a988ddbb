using System.Collections.Immutable;
using Rollwright.Listening.Beside.Meanings;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Beside.Following;

/// <summary>How a take follows what was meant: gestures of both and the stretches in which they go together.</summary>
internal sealed record Followed(IReadOnlyList<Gesture> Heard, IReadOnlyList<Gesture> Meant, IReadOnlyList<Run> Runs)
{
    /// <summary>More pairs of gestures than this are not looked at: some 70 minutes of a take beside a long break.</summary>
    public const long MostPairs = 60_000_000;

    public static Followed Of(ImmutableArray<HeardNote> notes, Meant meant, CancellationToken stop)
    {
        var heard = Gesture.Join(
            [.. notes.OrderBy(note => note.Onset).Select(note => (note.Onset, note.Pitch))],
            TakeTable.Of("together")
        );
        // Written times are exact; a hair apart is together.
        var asked = Gesture.Join([.. meant.Notes.Select(note => (note.At, note.Pitch))], 1e-6);
        if ((long)heard.Count * asked.Count > MostPairs)
            throw new TakeException(
                $"the take is too long beside this break: {heard.Count} gestures were heard and {asked.Count} are meant; cut it into shorter takes"
            );
        var pairs = Aligner.Align(heard, asked, new(meant, asked), meant.WholeNote, stop);
        return new(heard, asked, Run.Of(pairs));
    }
}
