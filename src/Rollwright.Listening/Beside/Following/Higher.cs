using System.Collections.Immutable;
using Rollwright.Listening.Beside.Meanings;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Beside.Following;

/// <summary>How much higher than meant a take sounds as a whole.</summary>
internal static class Higher
{
    // A capo at 7 is the highest that is usual (common practice, no source); an octave is another instrument.
    private const int Most = 7;

    // The beginning of the take tells it.
    private const int Enough = 200;

    /// <returns>Semitones, not 0; null where the take does not follow the break at any height.</returns>
    public static int? Find(ImmutableArray<HeardNote> notes, Meant meant, CancellationToken stop)
    {
        ImmutableArray<HeardNote> some = [.. notes.OrderBy(note => note.Onset).Take(Enough)];
        if (some.IsEmpty)
            return null;
        var (best, share) = Enumerable
            .Range(-Most, (2 * Most) + 1)
            .Where(shift => shift != 0)
            .Select(shift => (shift, Share(Followed.Of(some, meant.Higher(shift), stop))))
            .MaxBy(one => one.Item2);
        return share >= TakeTable.Of("follows") ? best : null;
    }

    // How many of the gestures heard are the break's.
    private static double Share(Followed followed) =>
        (double)
            followed
                .Runs.SelectMany(run => run.Pairs)
                .Count(pair => followed.Heard[pair.Heard].Common(followed.Meant[pair.Meant]) > 0)
        / followed.Heard.Count;
}
