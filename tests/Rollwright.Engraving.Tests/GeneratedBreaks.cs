using System.Collections.Immutable;
using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Engraving.Tests;

/// <summary>
/// Breaks of every kind that a page must hold: metres, keys, tunings, pickups, endings, high frets, pinches, slurs,
/// rests, lengths that need ties. They are drawn, not played: no hand could follow most of them.
/// </summary>
internal static class GeneratedBreaks
{
    private static readonly Gen<TimeSignature> Times = OneOf(
        TimeSignature.Cut,
        TimeSignature.Common,
        new TimeSignature(2, 4),
        new TimeSignature(3, 4),
        new TimeSignature(6, 8),
        new TimeSignature(9, 8),
        new TimeSignature(7, 8)
    );

    private static readonly Gen<Key> Keys = Gen.Select(
        Gen.Int[-4, 5].Select(PitchName.FromFifths),
        OneOf(Mode.Major, Mode.Mixolydian, Mode.Dorian, Mode.Minor),
        (tonic, mode) => new Key(tonic, mode)
    );

    private static readonly Gen<Chord> Chords = OneOf("G", "C", "D7", "F#m7", "Bb", "Em", "A7/C#", "Bm7b5")
        .Select(text => Chord.Parse(text)!.Value);

    // One moment: how many steps it lasts (0: half a step), whether it is silent, its strings, and a choice for each.
    private static readonly Gen<(int Steps, int Kind, int Choice)> Moments = Gen.Select(
        Gen.Frequency((8, Gen.Const(1)), (2, Gen.Const(2)), (1, Gen.Int[0, 7])),
        Gen.Int[0, 19],
        Gen.Int[0, 1_000_000]
    );

    private static readonly Gen<ImmutableArray<(int Steps, int Kind, int Choice)>> Fillings = Moments
        .Array[1, 20]
        .Select(moments => moments.ToImmutableArray());

    /// <summary>Breaks of 1 to 24 bars.</summary>
    public static Gen<Break> All { get; } =
        Gen.Select(
            Times,
            Keys,
            Gen.Int[0, TuningTable.All.Length - 1],
            Gen.Int[0, 5],
            Fillings.Array[1, 24],
            Gen.Select(Gen.Int[0, 7], Gen.Int[0, 23], Gen.Int[0, 23], Gen.Bool),
            Chords.Array[1, 6],
            Make
        );

    /// <summary>One of the values, each as likely.</summary>
    public static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static Break Make(
        TimeSignature time,
        Key key,
        int tuning,
        int capo,
        ImmutableArray<(int Steps, int Kind, int Choice)>[] fillings,
        (int Pickup, int Part, int Ending, bool Repeats) form,
        Chord[] chords
    )
    {
        var bars = ImmutableArray.CreateBuilder<BreakBar>();
        for (var i = 0; i < fillings.Length; i++)
        {
            var length = i == 0 && form.Pickup is > 0 and < 4 ? time.Step * form.Pickup : time.Bar;
            bars.Add(
                new()
                {
                    Time = time,
                    Length = length,
                    Marks = MarksOf(i, fillings.Length, form),
                    Strokes = StrokesOf(fillings[i], length, time),
                    Chords =
                    [
                        .. Enumerable
                            .Range(0, i % 3)
                            .Select(k => new ChordAt(length * k / new Fraction(2), chords[(i + k) % chords.Length])),
                    ],
                }
            );
        }
        return new()
        {
            Title = "Generated",
            Setting = new(TuningTable.All[tuning], capo, key, -12),
            Time = time,
            Tempo = new(time.Beat, 90),
            Bars = bars.ToImmutable(),
        };
    }

    private static BarMarks MarksOf(int bar, int count, (int Pickup, int Part, int Ending, bool Repeats) form)
    {
        var second = form.Ending + 1 < count && bar == form.Ending + 1;
        return new()
        {
            Part =
                bar == 0 ? "A"
                : bar == form.Part && bar != form.Ending && !second ? "B"
                : null,
            RepeatStart = form.Repeats && bar == form.Part,
            RepeatEnd = bar == form.Ending ? 2 : 0,
            EndingStart =
                bar == form.Ending && form.Ending > 0 ? [1]
                : second && form.Ending > 0 ? [2]
                : [],
            EndingStop = (bar == form.Ending || second) && form.Ending > 0,
            SectionEnd = second,
        };
    }

    private static ImmutableArray<Stroke> StrokesOf(
        ImmutableArray<(int Steps, int Kind, int Choice)> filling,
        Fraction barLength,
        TimeSignature time
    )
    {
        var strokes = ImmutableArray.CreateBuilder<Stroke>();
        var at = Fraction.Zero;
        foreach (var (steps, kind, choice) in filling)
        {
            var length = steps == 0 ? time.Step / new Fraction(2) : time.Step * steps;
            length = Fraction.Min(length, barLength - at);
            if (length <= Fraction.Zero)
                break;
            // Of twenty moments two are silent, three are pinches, three are slurred.
            if (kind >= 2)
                AddStrokes(strokes, at, length, kind, choice);
            at += length;
        }
        return strokes.ToImmutable();
    }

    private static void AddStrokes(
        ImmutableArray<Stroke>.Builder strokes,
        Fraction at,
        Fraction length,
        int kind,
        int choice
    )
    {
        var first = (choice % 5) + 1;
        if (kind is >= 17 && strokes.Count > 0)
        {
            var before = strokes[^1];
            var fret = FretOn(before.String, choice / 5);
            strokes.Add(
                new()
                {
                    At = at,
                    Length = length,
                    String = before.String,
                    Fret = fret,
                    Left = fret == 0 ? null : 1,
                    Slur = (SlurKind)(choice % 4),
                }
            );
            return;
        }
        var count = kind >= 14 ? 2 + (choice % 2) : 1;
        var strings = Enumerable.Range(0, count).Select(i => ((first + (2 * i) - 1) % 5) + 1).Order().ToList();
        for (var i = 0; i < count; i++)
        {
            var fret = FretOn(strings[i], choice / (7 + i));
            strokes.Add(
                new()
                {
                    At = at,
                    Length = length,
                    String = strings[i],
                    Fret = fret,
                    Left = fret == 0 ? null : (fret % 4) + 1,
                    Right = (RightFinger)(count - 1 - i),
                    IsMelody = choice % 3 == 0,
                }
            );
        }
    }

    private static int FretOn(int banjoString, int choice) =>
        choice % 3 == 0 ? 0
        : banjoString == Neck.ShortString ? 6 + (choice % 12)
        : choice % 2 == 0 ? choice % 6
        : choice % 20;
}
