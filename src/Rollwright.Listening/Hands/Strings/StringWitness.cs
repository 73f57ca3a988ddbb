using System.Collections.Immutable;
using Rollwright.Banjo.Settings;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Hands.Strings;

/// <summary>On which strings a take was played, told by its hands and by what each note ends.</summary>
internal static class StringWitness
{
    private const int Rounds = 3;

    /// <param name="moments">By time.</param>
    /// <param name="at">Half steps of each from the first.</param>
    /// <param name="setting">Tuning and capo.</param>
    /// <returns>The moments with the likeliest string of each key.</returns>
    public static List<Moment> Ask(IReadOnlyList<Moment> moments, IReadOnlyList<int> at, Setting setting)
    {
        // What holds for most banjos comes first, then what this take says; where it says nothing, stops are not asked.
        StopSense? sense = StopSense.Usual;
        var strings = Find();
        for (var round = 0; round < Rounds && sense is not null; round++)
        {
            sense = StopSense.Learn(moments, strings);
            strings = Find();
        }
        return [.. moments.Select((moment, i) => moment with { Strings = strings[i] })];

        List<ImmutableArray<int>> Find() => new StringFinder(setting.Tuning, setting.Capo, sense).Find(moments, at);
    }
}
