using System.Collections.Immutable;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>
/// Gives chords to a tune that has none: a hidden Markov model over half bars. Hidden are the chords of the key, heard
/// are the melody's notes; the likeliest path is found by Viterbi's algorithm. A first version: its agreement with human
/// chords is yet to be measured.
/// </summary>
public static class ChordFinder
{
    // Log-likelihoods; assumptions.
    private const double TonePerQuarter = 0.0;
    private const double NotAToneOnBeat = -2.2;
    private const double NotATonePassing = -0.7;
    private const double ChangeAtBar = -1.2;
    private const double ChangeWithinBar = -2.6;
    private const double NotHomeAtTheEnd = -3.0;

    /// <summary>The same tune with a chord symbol wherever the chord changes, and at the start of every part.</summary>
    public static Tune WithChords(Tune tune)
    {
        var pieces = Pieces(tune);
        var path = Likeliest(tune, pieces);
        var chords = tune.Bars.Select(_ => new List<ChordAt>()).ToArray();
        for (var i = 0; i < pieces.Count; i++)
        {
            var (bar, at, _) = pieces[i];
            var marks = tune.Bars[bar].Marks;
            var isStart = at == Fraction.Zero && (bar == 0 || marks.RepeatStart || !marks.EndingStart.IsEmpty);
            if (i == 0 || path[i] != path[i - 1] || isStart)
                chords[bar].Add(new(at, path[i]));
        }
        return tune with { Bars = [.. tune.Bars.Select((bar, i) => bar with { Chords = [.. chords[i]] })] };
    }

    private static List<(int Bar, Fraction At, Fraction Length)> Pieces(Tune tune)
    {
        var pieces = new List<(int, Fraction, Fraction)>();
        for (var i = 0; i < tune.Bars.Length; i++)
        {
            var bar = tune.Bars[i];
            var half = bar.Time.Bar * new Fraction(1, 2);
            var isHalved = !bar.IsPartial && (half % bar.Time.Beat) == Fraction.Zero && bar.Time.Beats != 3;
            if (!isHalved)
            {
                pieces.Add((i, Fraction.Zero, bar.Length));
                continue;
            }
            pieces.Add((i, Fraction.Zero, half));
            pieces.Add((i, half, bar.Length - half));
        }
        return pieces;
    }

    private static Chord[] Likeliest(Tune tune, List<(int Bar, Fraction At, Fraction Length)> pieces)
    {
        var chords = HarmonyTable.Of(tune.Key);
        var total = chords.Sum(chord => chord.Share);
        var prior = chords.Select(chord => Math.Log(chord.Share / total)).ToArray();
        var score = new double[pieces.Count, chords.Length];
        var from = new int[pieces.Count, chords.Length];
        for (var i = 0; i < pieces.Count; i++)
        {
            var isLast = i == pieces.Count - 1 || tune.Bars[pieces[i].Bar].Marks.RepeatEnd > 1;
            for (var c = 0; c < chords.Length; c++)
            {
                var heard = Heard(tune.Bars[pieces[i].Bar], pieces[i].At, pieces[i].Length, chords[c].Chord);
                if (isLast && c != 0 && i == pieces.Count - 1)
                    heard += NotHomeAtTheEnd;
                if (i == 0)
                {
                    score[i, c] = prior[c] + heard;
                    continue;
                }
                var change = pieces[i].At == Fraction.Zero ? ChangeAtBar : ChangeWithinBar;
                var best = double.NegativeInfinity;
                for (var p = 0; p < chords.Length; p++)
                {
                    var way = score[i - 1, p] + (p == c ? 0 : change + prior[c]);
                    if (way > best)
                        (best, from[i, c]) = (way, p);
                }
                score[i, c] = best + heard;
            }
        }
        var at = Enumerable.Range(0, chords.Length).MaxBy(c => score[pieces.Count - 1, c]);
        var path = new Chord[pieces.Count];
        for (var i = pieces.Count - 1; i >= 0; i--)
        {
            path[i] = chords[at].Chord;
            at = from[i, at];
        }
        return path;
    }

    private static double Heard(TuneBar bar, Fraction at, Fraction length, Chord chord)
    {
        var sum = 0.0;
        foreach (var note in bar.Notes)
        {
            var start = Fraction.Max(note.At, at);
            var end = Fraction.Min(note.At + note.Length, at + length);
            if (end <= start)
                continue;
            var quarters = (end - start).ToDouble() * 4;
            var isOnBeat = (start % bar.Time.Beat) == Fraction.Zero;
            sum +=
                quarters
                * (
                    chord.Contains(note.Pitch.Midi) ? TonePerQuarter
                    : isOnBeat ? NotAToneOnBeat
                    : NotATonePassing
                );
        }
        return sum;
    }
}
