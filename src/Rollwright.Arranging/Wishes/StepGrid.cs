using System.Collections.Immutable;
using Rollwright.Banjo.Settings;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Wishes;

/// <summary>The tune laid on the steps of its written bars, in one setting.</summary>
public sealed class StepGrid
{
    private const int PlainWeight = 1000;

    private readonly ImmutableArray<bool> full;
    private readonly ImmutableArray<bool> inThrees;

    private StepGrid(
        ImmutableArray<StepPlace> steps,
        ImmutableArray<Range> bars,
        ImmutableArray<bool> full,
        ImmutableArray<bool> inThrees,
        BarTree tree
    )
    {
        this.full = full;
        this.inThrees = inThrees;
        Steps = steps;
        Bars = bars;
        Tree = tree;
    }

    /// <summary>Steps of all written bars, one bar after the other.</summary>
    public ImmutableArray<StepPlace> Steps { get; }

    /// <summary>The steps of each written bar.</summary>
    public ImmutableArray<Range> Bars { get; }

    public BarTree Tree { get; }

    public int FirstOf(int bar) => Bars[bar].Start.Value;

    public int CountOf(int bar) => Bars[bar].End.Value - Bars[bar].Start.Value;

    /// <summary>The bar with which the tune ends.</summary>
    public int LastPlayed { get; private init; }

    /// <summary>Whether a bar is as long as its metre: only such bars are asked to be a roll.</summary>
    public bool IsFull(int bar) => full[bar];

    /// <summary>Whether the beats of a bar divide in three.</summary>
    public bool IsInThrees(int bar) => inThrees[bar];

    /// <param name="tune">The tune at its own pitch, with chords.</param>
    /// <param name="setting">Where it goes on the banjo.</param>
    public static StepGrid Lay(Tune tune, Setting setting)
    {
        var tree = BarTree.Of(tune.Order, tune.Bars.Length);
        var steps = ImmutableArray.CreateBuilder<StepPlace>();
        var bars = ImmutableArray.CreateBuilder<Range>();
        var move = setting.Shift - setting.Capo;
        var chordFifths = setting.Position.Tonic.Fifths - tune.Key.Tonic.Fifths;
        // What still holds at the end of each bar, for the bar that follows it in play.
        var lastChord = new Chord?[tune.Bars.Length];
        var lastKey = new int?[tune.Bars.Length];
        for (var index = 0; index < tune.Bars.Length; index++)
        {
            var bar = tune.Bars[index];
            var parent = tree.Parent[index];
            var start = steps.Count;
            var chord = parent >= 0 ? lastChord[parent] : null;
            var sounding = parent >= 0 ? lastKey[parent] : null;
            LayBar(tune, index, move, chordFifths, steps, ref chord, ref sounding);
            lastChord[index] = chord;
            lastKey[index] = sounding;
            bars.Add(start..steps.Count);
        }
        return new(
            steps.ToImmutable(),
            bars.ToImmutable(),
            [.. tune.Bars.Select(bar => bar.Length == bar.Time.Bar)],
            [.. tune.Bars.Select(bar => bar.Time.IsCompound)],
            tree
        )
        {
            LastPlayed = tune.Order[^1],
        };
    }

    private static void LayBar(
        Tune tune,
        int index,
        int move,
        int chordFifths,
        ImmutableArray<StepPlace>.Builder steps,
        ref Chord? chord,
        ref int? sounding
    )
    {
        var bar = tune.Bars[index];
        var step = bar.Time.Step;
        // A pickup is completed by the bar line after it, so its odd piece comes first.
        var isPickup = bar.IsPartial && IsPickup(tune, index);
        var odd = bar.Length % step;
        var missing = isPickup ? bar.Time.Bar - bar.Length : Fraction.Zero;
        var chordNow = chord;
        for (var at = Fraction.Zero; at < bar.Length; )
        {
            // An odd piece at the end belongs to the last step: two short steps running would rush a finger.
            var left = bar.Length - at;
            var length =
                isPickup && at == Fraction.Zero && odd > Fraction.Zero ? odd
                : left < step * 2 ? left
                : step;
            var end = at + length;
            foreach (var change in bar.Chords)
            {
                if (change.At >= at && change.At < end)
                    chordNow = change.Chord.TransposeFifths(chordFifths);
            }
            var place = at + missing;
            var strength =
                place == Fraction.Zero ? 3
                : (place % bar.Time.Beat) == Fraction.Zero ? 2
                : 1;
            int? onset = null,
                half = null;
            int weight = 0,
                halfWeight = 0;
            foreach (var note in bar.Notes)
            {
                if (note.At >= end || note.At + note.Length <= at)
                    continue;
                var key = note.Pitch.Midi + move;
                if (note.At < at)
                {
                    sounding = key;
                    continue;
                }
                var continues = note.TiedFromBefore;
                if (note.At == at)
                {
                    sounding = key;
                    if (!continues)
                        (onset, weight) = (key, WeightOf(note.Length, step, strength));
                }
                else if (!continues)
                {
                    if (note.At - at == Fraction.Min(step, length) * new Fraction(1, 2))
                        (half, halfWeight) = (key, WeightOf(note.Length, step, 1));
                    // A note of a triplet falls between the steps; it is wished where the nearest later pluck can be.
                    else if (onset is null)
                        (onset, weight) = (key, WeightOf(note.Length, step, 1) / 2);
                    if (onset is null && sounding is null)
                        sounding = key;
                }
            }
            if (!bar.Notes.Any(note => note.At < end && note.At + note.Length > at))
                sounding = null;
            steps.Add(
                new()
                {
                    Bar = index,
                    At = at,
                    Length = length,
                    Strength = strength,
                    Onset = onset,
                    Weight = weight,
                    HalfOnset = half,
                    HalfWeight = halfWeight,
                    Sounding = sounding,
                    Chord = chordNow,
                }
            );
            at = end;
        }
        chord = chordNow;
    }

    private static bool IsPickup(Tune tune, int index) =>
        index == 0
        || tune.Bars[index - 1].Marks is { RepeatEnd: > 1 } or { SectionEnd: true }
        || tune.Bars[index].Marks.RepeatStart;

    // A note weighs its length up to a half bar's worth of steps, and its place in the metre: what ears hold on to.
    private static int WeightOf(Fraction length, Fraction step, int strength)
    {
        var steps = Math.Clamp((length / step).ToDouble(), 0.5, 4);
        return (int)(
            PlainWeight
            * Math.Pow(steps, 0.6)
            * (
                strength switch
                {
                    3 => 2.4,
                    2 => 1.7,
                    _ => 1.0,
                }
            )
        );
    }
}
