using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Music.Chords;

/// <summary>Which chord holds where: one that is said holds until the next, over bar lines too.</summary>
public sealed class ChordsInForce
{
    private readonly ImmutableArray<ImmutableArray<ChordAt>> bars;
    private readonly ImmutableArray<Chord?> before;

    /// <param name="bars">The chords of each bar, in the order in which they follow each other.</param>
    public ChordsInForce(IEnumerable<ImmutableArray<ChordAt>> bars)
    {
        this.bars = [.. bars];
        var entering = ImmutableArray.CreateBuilder<Chord?>(this.bars.Length);
        Chord? now = null;
        foreach (var chords in this.bars)
        {
            entering.Add(now);
            if (chords is [.., var last])
                now = last.Chord;
        }
        before = entering.MoveToImmutable();
    }

    /// <summary>The chord at a time of a bar, in whole notes from its beginning; null before the first.</summary>
    public Chord? At(int bar, Fraction at)
    {
        var chord = before[bar];
        foreach (var change in bars[bar])
            if (change.At <= at)
                chord = change.Chord;
        return chord;
    }

    /// <summary>The chords of a bar that stands by itself: the one that goes on from before is said again.</summary>
    public ImmutableArray<ChordAt> SaidAnew(int bar)
    {
        var chords = bars[bar];
        return before[bar] is { } chord && (chords.IsEmpty || chords[0].At > Fraction.Zero)
            ? chords.Insert(0, new(Fraction.Zero, chord))
            : chords;
    }
}
