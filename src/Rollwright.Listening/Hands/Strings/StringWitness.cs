using System.Collections.Immutable;
using Rollwright.Banjo.Settings;
using Rollwright.Listening.Banjos;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Hands.Strings;

/// <summary>On which strings a take was played, told by its hands and by what each note ends.</summary>
internal static class StringWitness
{
    private const int Rounds = 3;

    /// <param name="moments">By time.</param>
    /// <param name="at">Half steps of each from the first.</param>
    /// <param name="setting">Tuning and capo.</param>
    /// <param name="banjo">The banjo, where it was learnt.</param>
    /// <returns>The moments with the likeliest string of each key.</returns>
    public static List<Moment> Ask(
        IReadOnlyList<Moment> moments,
        IReadOnlyList<int> at,
        Setting setting,
        OwnBanjo? banjo = null
    )
    {
        var sense = banjo is { KnowsStops: true } ? banjo.Stops : Learn(moments, at, setting);
        var strings = Find(moments, at, setting, sense);
        return [.. moments.Select((moment, i) => moment with { Strings = strings[i] })];
    }

    /// <summary>
    /// What a take tells of how notes stop: what holds for most banjos comes first, then what is learnt with the strings
    /// found so; null where it shows nothing.
    /// </summary>
    private static StopSense? Learn(IReadOnlyList<Moment> moments, IReadOnlyList<int> at, Setting setting)
    {
        StopSense? sense = StopSense.Usual;
        for (var round = 0; round < Rounds && sense is not null; round++)
            sense = StopSense.Learn(moments, Find(moments, at, setting, sense));
        return sense;
    }

    private static List<ImmutableArray<int>> Find(
        IReadOnlyList<Moment> moments,
        IReadOnlyList<int> at,
        Setting setting,
        StopSense? sense
    ) => new StringFinder(setting.Tuning, setting.Capo, sense).Find(moments, at);
}
