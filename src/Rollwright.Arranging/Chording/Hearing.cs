using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>What is heard of a tune's melody, as semitones above its tonic (0 to 11).</summary>
internal sealed class Hearing
{
    private readonly int tonic;
    private readonly double[][] bars;

    public Hearing(Tune tune)
    {
        tonic = tune.Key.Tonic.PitchClass;
        bars = [.. tune.Bars.Select(bar => Shares(bar, Fraction.Zero, bar.Length))];
        var whole = Enumerable.Range(0, 12).Select(note => bars.Sum(bar => bar[note])).ToArray();
        var sum = whole.Sum();
        Whole = [.. whole.Select(share => sum > 0 ? share / sum : 0)];
    }

    /// <summary>Each note's share of the whole tune, every bar weighing the same.</summary>
    public double[] Whole { get; }

    /// <summary>Each note's share of a bar's time.</summary>
    public double[] Bar(int index) => bars[index];

    /// <summary>The note that sounds at a moment of a bar; null where it rests.</summary>
    public int? At(TuneBar bar, Fraction at)
    {
        foreach (var note in bar.Notes)
        {
            if (note.At <= at && note.At + note.Length > at)
                return AboveTonic(note.Pitch.Midi);
        }
        return null;
    }

    /// <summary>Each note's share of a span of a bar.</summary>
    public double[] Shares(TuneBar bar, Fraction start, Fraction end)
    {
        var shares = new double[12];
        foreach (var note in bar.Notes)
        {
            var from = Fraction.Max(note.At, start);
            var to = Fraction.Min(note.At + note.Length, end);
            if (to > from)
                shares[AboveTonic(note.Pitch.Midi)] += ((to - from) / (end - start)).ToDouble();
        }
        return shares;
    }

    public int AboveTonic(int pitch) => (((pitch - tonic) % 12) + 12) % 12;
}
