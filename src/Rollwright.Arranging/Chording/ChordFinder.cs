using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>
/// Gives chords to a tune that has none, as <c>docs/chords.md</c> tells: the tune is laid out in beats
/// (<see cref="BeatLine"/>), the model says how likely each triad is at each (<see cref="ChordModel"/>), and the chords
/// are chosen from that (<see cref="ChordPath"/>).
/// </summary>
public static class ChordFinder
{
    /// <summary>
    /// The same tune with a chord symbol wherever the chord changes, and at the start of every part and ending. The
    /// pickup that a tune begins with has none.
    /// </summary>
    public static Tune WithChords(Tune tune) => WithChords(tune, ChordModel.BuiltIn, ChangePrices.Usual);

    internal static Tune WithChords(Tune tune, ChordModel model, ChangePrices prices)
    {
        var line = BeatLine.Of(tune);
        var path = ChordPath.Choose(line.Beats, model.Believe(line.Beats), prices);
        var chords = tune.Bars.Select(_ => new List<ChordAt>()).ToArray();
        for (var i = 0; i < path.Length; i++)
        {
            var beat = line.Beats[i];
            if (beat.Bar == 0 && line.Places.IsPickup(0))
                continue;
            var isNew = beat.Before < 0 || path[i] != path[beat.Before];
            if (isNew || (beat.At == Fraction.Zero && IsStart(tune, line.Places, beat.Bar)))
                chords[beat.Bar].Add(new(beat.At, Triad.Symbol(path[i], tune.Key)));
        }
        return tune with { Bars = [.. tune.Bars.Select((bar, i) => bar with { Chords = [.. chords[i]] })] };
    }

    // Where play may come from elsewhere, or a reader begins.
    private static bool IsStart(Tune tune, PhrasePlaces places, int bar) =>
        places.StartsPart[bar] || places.FromStart[bar] == 0 || !tune.Bars[bar].Marks.EndingStart.IsEmpty;
}
