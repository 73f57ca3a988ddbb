using System.Collections.Immutable;
using Rollwright.Audio;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Hands.Strings;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Banjos;

/// <summary>
/// Learns a banjo from a slow open roll, and, where they follow, from frets 1 and 2 of each long string, up and down. It
/// is taken to be in tune, so what is off is how this banjo is heard.
/// </summary>
public static class BanjoLearner
{
    // A pitch heard less often is not learnt.
    private const int Often = 2;

    // The frets that are asked for, and one more for who goes farther.
    private const int Highest = 3;

    // So many notes on frets tell how notes stop.
    private const int Fretted = 8;

    /// <returns>Null where no plucked notes are found, or not every open string.</returns>
    /// <param name="sound">The roll.</param>
    /// <param name="tuning">The tuning of the banjo.</param>
    /// <param name="stop">Stops between pieces.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static OwnBanjo? Learn(Samples sound, Tuning tuning, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(sound);
        ArgumentNullException.ThrowIfNull(tuning);
        var heard = Ear.Hear([OneSide.Of(sound)], sound.Rate, null, null, stop);
        // A note may be taken for its octave; what lies higher than was asked for is left out.
        var alone = heard
            .Moments.Select(moment => moment.Plainer())
            .Where(moment => moment.Keys is [var key] && FretOf(key, tuning) <= Highest)
            .ToList();
        var notes = alone
            .GroupBy(moment => moment.Keys[0])
            .Where(same => same.Count() >= Often)
            .ToImmutableSortedDictionary(same => same.Key, same => heard.Partials(same.Key));
        if (!Enumerable.Range(1, Neck.Strings).All(s => notes.ContainsKey(tuning.OpenOf(s))))
            return null;
        var hasFrets = alone.Count(moment => FretOf(moment.Keys[0], tuning) > 0) >= Fretted;
        return new(heard.Cents, notes, hasFrets ? Stops(alone, tuning) : null, hasFrets);
    }

    // In the first frets no pitch lies on two strings, but for those that a higher string has open.
    private static StopSense? Stops(List<Moment> moments, Tuning tuning) =>
        StopSense.Learn(
            moments,
            [.. moments.Select(moment => moment.Keys.Select(key => LowestOn(key, tuning)).ToImmutableArray())]
        );

    private static int FretOf(int key, Tuning tuning) =>
        LowestOn(key, tuning) is var on and not 0 ? key - tuning.OpenOf(on) : int.MaxValue;

    private static int LowestOn(int key, Tuning tuning) =>
        Enumerable
            .Range(1, Neck.Strings)
            .Where(s => s == Neck.ShortString ? key == tuning.OpenOf(s) : key >= tuning.OpenOf(s))
            .OrderBy(s => key - tuning.OpenOf(s))
            .FirstOrDefault();
}
