using System.Collections.Immutable;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>Gives chords to a tune that has none.</summary>
public static class ChordFinder
{
    /// <summary>The same tune with a chord symbol wherever the chord changes, and at the start of every part.</summary>
    public static Tune WithChords(Tune tune) => WithChords(tune, HarmonyTable.Empty(), new());

    internal static Tune WithChords(Tune tune, HarmonyTable table, PathPrices prices)
    {
        var beats = BeatLine.Of(tune);
        var path = ChordPath.Choose(beats, new ChordModel(table).Ask(beats).Marginals, prices);
        var chords = tune.Bars.Select(_ => new List<ChordAt>()).ToArray();
        for (var i = 0; i < path.Length; i++)
        {
            if (i == 0 || path[i] != path[beats[i].Before] || beats[i].At == Fraction.Zero)
                chords[beats[i].Bar].Add(new(beats[i].At, Triad.Chord(path[i], tune.Key)));
        }
        return tune with { Bars = [.. tune.Bars.Select((bar, i) => bar with { Chords = [.. chords[i]] })] };
    }
}
