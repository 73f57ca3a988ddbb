using System.Collections.Immutable;
using Rollwright.Banjo.Settings;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Wishes;

/// <summary>The tune laid on the steps of its written bars, in one setting.</summary>
public sealed class StepGrid
{
    private const int PlainWeight = 1000;

    /// <summary>What a note weighs that only strikes the one before again, off the beat (assumption).</summary>
    private const int StruckAgainPercent = 75;

    private readonly ImmutableArray<bool> full;
    private readonly ImmutableArray<TimeSignature> metres;
    private readonly ImmutableArray<bool> opens;
    private readonly ImmutableArray<bool> ends;
    private bool isFine;

    private StepGrid(
        ImmutableArray<StepPlace> steps,
        ImmutableArray<Range> bars,
        ImmutableArray<bool> full,
        ImmutableArray<TimeSignature> metres,
        ImmutableArray<bool> opens,
        ImmutableArray<bool> ends,
        BarTree tree,
        BarNumbering numbering
    )
    {
        Numbering = numbering;
        this.full = full;
        this.metres = metres;
        this.opens = opens;
        this.ends = ends;
        Steps = steps;
        Bars = bars;
        Tree = tree;
    }

    /// <summary>Steps of all written bars, one bar after the other.</summary>
    public ImmutableArray<StepPlace> Steps { get; }

    /// <summary>The steps of each written bar.</summary>
    public ImmutableArray<Range> Bars { get; }

    public BarTree Tree { get; }

    /// <summary>The bars as people count them.</summary>
    public BarNumbering Numbering { get; }

    /// <summary>Where a step stands, in words: "bar 3, beat 2.5".</summary>
    public string Place(int step) => Numbering.Place(Steps[step].Bar, Steps[step].At);

    /// <summary>The first and the last step of the bars of a name; null where there is no such bar.</summary>
    public (int First, int Last)? StepsOf(string name) =>
        Numbering.Named(name) is [var first, ..] bars ? (FirstOf(first), Bars[bars[^1]].End.Value - 1) : null;

    public int FirstOf(int bar) => Bars[bar].Start.Value;

    public int CountOf(int bar) => Bars[bar].End.Value - Bars[bar].Start.Value;

    /// <summary>Steps of the metre in a bar, those between not counted.</summary>
    public int MainStepsOf(int bar)
    {
        var count = 0;
        for (var step = FirstOf(bar); step < Bars[bar].End.Value; step++)
            count += Steps[step].IsBetween ? 0 : 1;
        return count;
    }

    /// <summary>The bar with which the tune ends.</summary>
    public int LastPlayed { get; private init; }

    /// <summary>Whether a bar is as long as its metre: only such bars are asked to be a roll.</summary>
    public bool IsFull(int bar) => full[bar];

    /// <summary>Whether a part ends with this bar: a repeat, an ending or another part follows, or nothing.</summary>
    public bool EndsPart(int bar) => ends[bar];

    /// <summary>Whether a phrase of two bars begins with this bar.</summary>
    public bool OpensPhrase(int bar) => opens[bar];

    /// <summary>The step of a bar's metre, in whole notes.</summary>
    public Fraction StepOf(int bar) => isFine ? metres[bar].Step * new Fraction(1, 2) : metres[bar].Step;

    /// <summary>What is counted aloud in a bar's metre, in whole notes.</summary>
    public Fraction CountedOf(int bar) => metres[bar].Count;

    /// <summary>Whether the beats of a bar divide in three.</summary>
    public bool IsInThrees(int bar) => metres[bar].IsCompound;

    /// <param name="tune">The tune at its own pitch, with chords.</param>
    /// <param name="setting">Where it goes on the banjo.</param>
    /// <param name="followsTune">
    /// Every note of the tune has a step of its own; otherwise the steps of the metre stay, and only notes that halve them
    /// have.
    /// </param>
    /// <param name="isFine">The hands go twice as fast as the steps of the metre: half of one is their step.</param>
    public static StepGrid Lay(Tune tune, Setting setting, bool followsTune = false, bool isFine = false)
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
            LayBar(tune, index, move, chordFifths, followsTune, steps, ref chord, ref sounding);
            lastChord[index] = chord;
            lastKey[index] = sounding;
            bars.Add(start..steps.Count);
        }
        return new(
            steps.ToImmutable(),
            bars.ToImmutable(),
            [.. tune.Bars.Select(bar => bar.Length == bar.Time.Bar)],
            [.. tune.Bars.Select(bar => bar.Time)],
            Phrases.Openings(tune, tree),
            Phrases.PartEnds(tune),
            tree,
            tune.Numbering
        )
        {
            LastPlayed = tune.Order[^1],
            isFine = isFine,
        };
    }

    private static void LayBar(
        Tune tune,
        int index,
        int move,
        int chordFifths,
        bool followsTune,
        ImmutableArray<StepPlace>.Builder steps,
        ref Chord? chord,
        ref int? sounding
    )
    {
        var bar = tune.Bars[index];
        // A last bar that play comes back from has to go on.
        var isLast = index == tune.Order[^1] && tune.Order.Count(played => played == index) == 1;
        // A pickup is completed by the bar line after it.
        var missing = bar.IsPartial && IsPickup(tune, index) ? bar.Time.Bar - bar.Length : Fraction.Zero;
        var times = StepTimes.Of(bar, missing > Fraction.Zero, followsTune);
        var lastOnset = bar
            .Notes.Where(note => !note.TiedFromBefore)
            .Select(note => note.At)
            .DefaultIfEmpty(bar.Length)
            .Max();
        for (var i = 0; i < times.Length; i++)
        {
            var (at, main) = times[i];
            var end = i + 1 < times.Length ? times[i + 1].At : bar.Length;
            foreach (var change in bar.Chords)
            {
                if (change.At >= at && change.At < end)
                    chord = change.Chord.TransposeFifths(chordFifths);
            }
            var place = at + missing;
            var strength =
                place == Fraction.Zero ? 3
                : (place % bar.Time.Beat) == Fraction.Zero ? 2
                : 1;
            var wish = WishAt(bar, at, end, move, strength, ref sounding);
            steps.Add(
                new()
                {
                    Bar = index,
                    At = at,
                    Length = end - at,
                    Main = main,
                    Strength = strength,
                    Onset = wish.Key,
                    Weight = wish.Weight,
                    Also = AlsoAt(bar, at, move, wish.Key),
                    Sounding = sounding,
                    IsAfterTheEnd = isLast && at > lastOnset,
                    Chord = chord,
                }
            );
        }
    }

    private static ImmutableArray<int> AlsoAt(TuneBar bar, Fraction at, int move, int? wished) =>
        [
            .. bar
                .Notes.Where(note => note.At == at && !note.TiedFromBefore)
                .Select(note => note.Pitch.Midi + move)
                .Where(key => key != wished)
                .Distinct(),
        ];

    private static (int? Key, int Weight) WishAt(
        TuneBar bar,
        Fraction at,
        Fraction end,
        int move,
        int strength,
        ref int? sounding
    )
    {
        int? onset = null;
        var weight = 0;
        var isRest = true;
        foreach (var note in bar.Notes)
        {
            if (note.At >= end || note.At + note.Length <= at)
                continue;
            isRest = false;
            var key = note.Pitch.Midi + move;
            if (note.At <= at)
            {
                if (note.At == at && !note.TiedFromBefore && !(onset > key))
                    (onset, weight) = (
                        key,
                        WeightOf(note.Length, bar.Time.Step, strength) * Again(key, sounding, strength) / 100
                    );
                sounding = key;
            }
            // A note that has no step of its own is wished where the nearest pluck before it can be.
            else if (!note.TiedFromBefore && onset is null)
            {
                (onset, weight) = (key, WeightOf(note.Length, bar.Time.Step, 1) / 2);
                sounding ??= key;
            }
        }
        if (isRest)
            sounding = null;
        return (onset, weight);
    }

    private static bool IsPickup(Tune tune, int index) =>
        index == 0
        || tune.Bars[index - 1].Marks is { RepeatEnd: > 1 } or { SectionEnd: true }
        || tune.Bars[index].Marks.RepeatStart;

    // The same note struck once more says less than a new one, but on a beat.
    private static int Again(int key, int? before, int strength) =>
        key == before && strength == 1 ? StruckAgainPercent : 100;

    // A note weighs its length up to a half bar's worth of steps, and its place in the metre: what ears hold on to.
    private static int WeightOf(Fraction length, Fraction step, int strength)
    {
        var steps = Math.Clamp((length / step).ToDouble(), 0.5, 4);
        return (int)(
            PlainWeight
            * Math.Pow(steps, 0.75)
            * (
                strength switch
                {
                    3 => 3.0,
                    2 => 2.0,
                    _ => 1.0,
                }
            )
        );
    }
}
