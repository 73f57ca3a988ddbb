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

namespace Rollwright.TestKit;

/// <summary>
/// Breaks by chance: any metre of fiddle tunes, pickups, repeats, endings, rests, triplets, pinches, slurs over bar
/// lines, every tuning and capo. Well formed as values; whether hands could play them does not matter here.
/// </summary>
public static class BreakGenerator
{
    private static readonly Gen<TimeSignature> Times = Any(
        new TimeSignature(4, 4),
        new(2, 2),
        new(2, 4),
        new(3, 4),
        new(6, 8),
        new(9, 8),
        new(13, 8)
    );

    private static readonly Gen<Key> Keys = Gen.Select(
        Any("C", "G", "D", "F", "A"),
        Any(Mode.Major, Mode.Mixolydian, Mode.Dorian, Mode.Minor),
        (name, mode) => new Key(PitchName.Parse(name)!.Value, mode)
    );

    private static readonly Gen<Chord> Chords = Gen.Select(
        Gen.Int[-2, 4],
        Gen.Enum<ChordQuality>(),
        Gen.Int[-1, 3],
        (root, quality, bass) =>
            new Chord(PitchName.FromFifths(root), quality, bass > 0 && bass != root ? PitchName.FromFifths(bass) : null)
    );

    // What may fill a stretch of time: lengths of strokes and rests (negative) that come one after another.
    private static readonly Gen<ImmutableArray<Fraction>> Rhythms = Any<ImmutableArray<Fraction>>(
        [new(1, 8)],
        [new(1, 8), new(1, 8)],
        [new(1, 4)],
        [new(-1, 8)],
        [new(1, 16), new(1, 16)],
        [new(1, 12), new(1, 12), new(1, 12)],
        [new(3, 16), new(1, 16)],
        [new(5, 16), new(1, 16)],
        [new(1, 20), new(1, 20), new(1, 20), new(1, 20), new(1, 20)]
    );

    private static readonly Gen<Setting> Settings = Gen.Select(
        Any([.. TuningTable.All]),
        Gen.Int[0, 5],
        Keys,
        Any(-24, -12, -10, 0),
        (tuning, capo, key, shift) => new Setting(tuning, capo, key, shift)
    );

    /// <summary>Any break of one to eight bars.</summary>
    public static Gen<Break> Breaks { get; } =
        from setting in Settings
        from time in Times
        from count in Gen.Int[1, 8]
        from pickup in Gen.Bool
        from rhythms in Rhythms.Array[24].Array[count]
        from picks in Gen.UInt.Array[100].Array[count]
        from chords in Chords.Array[2].Array[count]
        from form in Gen.Int[0, 5]
        from perMinute in Gen.Int[30, 160]
        from swing in Any(null, null, Swing.TwoToOne, Swing.Of(3, 2))
        from title in Any("The Kettle Path", "Rain & \"Shine\" <Reel>", "Ährenfeld, Übung")
        select Make(setting, time, pickup, rhythms, picks, chords, form, perMinute, swing, title);

    private static Gen<T> Any<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static Break Make(
        Setting setting,
        TimeSignature time,
        bool pickup,
        ImmutableArray<Fraction>[][] rhythms,
        uint[][] picks,
        Chord[][] chords,
        int form,
        int perMinute,
        Swing? swing,
        string title
    )
    {
        var bars = ImmutableArray.CreateBuilder<BreakBar>();
        var ringing = new int?[Neck.Strings + 1];
        for (var i = 0; i < rhythms.Length; i++)
        {
            var length = i == 0 && pickup && rhythms.Length > 1 ? time.Beat : time.Bar;
            bars.Add(
                new()
                {
                    Length = length,
                    Time = time,
                    Strokes = Strokes(length, rhythms[i], picks[i], ringing),
                    Chords = [new(Fraction.Zero, chords[i][0]), new(length * new Fraction(1, 2), chords[i][1])],
                }
            );
        }
        Mark(bars, form, pickup && rhythms.Length > 1 ? 1 : 0);
        return new()
        {
            Title = title,
            Composer = form == 0 ? "" : "A. Player",
            Setting = setting,
            Time = time,
            Tempo = new(time.Beat, perMinute),
            Swing = swing,
            Bars = bars.ToImmutable(),
            Spans = [new(SpanKind.Roll, "forward", 0, Fraction.Zero, bars[0].Length)],
        };
    }

    private static ImmutableArray<Stroke> Strokes(
        Fraction length,
        ImmutableArray<Fraction>[] rhythms,
        uint[] picks,
        int?[] ringing
    )
    {
        var strokes = ImmutableArray.CreateBuilder<Stroke>();
        var at = Fraction.Zero;
        var next = 0;
        foreach (var rhythm in rhythms)
        {
            var sum = Fraction.Zero;
            foreach (var part in rhythm)
                sum += part < Fraction.Zero ? -part : part;
            if (at + sum > length)
                continue;
            foreach (var part in rhythm)
            {
                if (part > Fraction.Zero)
                    Strike(strokes, at, part, picks[next++ % picks.Length], ringing);
                at += part < Fraction.Zero ? -part : part;
            }
        }
        return strokes.ToImmutable();
    }

    private static void Strike(
        ImmutableArray<Stroke>.Builder strokes,
        Fraction at,
        Fraction length,
        uint pick,
        int?[] ringing
    )
    {
        var first = (int)(pick % 5) + 1;
        var fret = (int)(pick / 8 % 13);
        if (first == Neck.ShortString && fret is > 0 and < 6)
            fret = 0;
        var slur = ringing[first] is { } before && pick / 128 % 4 == 0 ? Slur(before, fret) : null;
        strokes.Add(Make(at, length, first, fret, slur, pick));
        ringing[first] = fret;
        // A pinch: a string further down with the middle finger.
        var second = first - 1 - (int)(pick / 1024 % 2);
        if (slur is not null || second < 1 || pick / 4096 % 4 != 0)
            return;
        strokes.Insert(
            strokes.Count - 1,
            Make(at, length, second, 0, null, pick) with
            {
                Right = RightFinger.M,
                IsMelody = false,
            }
        );
        strokes[^1] = strokes[^1] with { Right = RightFinger.T };
        ringing[second] = 0;
    }

    private static SlurKind? Slur(int before, int fret) =>
        fret > before && before > 0 ? SlurKind.Slide
        : fret > before ? SlurKind.HammerOn
        : fret < before ? SlurKind.PullOff
        : fret > 0 ? SlurKind.Choke
        : null;

    private static Stroke Make(Fraction at, Fraction length, int banjoString, int fret, SlurKind? slur, uint pick) =>
        new()
        {
            At = at,
            Length = length,
            String = banjoString,
            Fret = fret,
            Slur = slur,
            Right = slur is null ? (RightFinger)(pick / 16384 % 3) : null,
            Left = fret == 0 ? null : (int)(pick / 65536 % 5),
            IsMelody = pick / 1048576 % 3 == 0,
        };

    // Forms: as it stands; a repeat; two endings; parts with a repeat each; three times; three passes on two endings.
    private static void Mark(ImmutableArray<BreakBar>.Builder bars, int form, int first)
    {
        void Change(int index, Func<BarMarks, BarMarks> change) =>
            bars[index] = bars[index] with { Marks = change(bars[index].Marks) };

        var last = bars.Count - 1;
        if (form == 0 || last < first)
            return;
        Change(first, marks => marks with { RepeatStart = true, Part = form == 3 ? "A" : null });
        if (form is 1 or 4 || last - first < 3)
        {
            Change(last, marks => marks with { RepeatEnd = form == 4 ? 3 : 2 });
            return;
        }
        if (form == 3)
        {
            Change(first + 1, marks => marks with { RepeatEnd = 2 });
            Change(first + 2, marks => marks with { RepeatStart = true, Part = "B" });
            Change(last, marks => marks with { RepeatEnd = 2 });
            return;
        }
        Change(
            last - 1,
            marks => marks with { EndingStart = form == 5 ? [1, 3] : [1], EndingStop = true, RepeatEnd = 2 }
        );
        Change(
            last,
            marks => marks with { EndingStart = form == 5 ? [2, 4] : [2], EndingStop = true, SectionEnd = true }
        );
    }
}
