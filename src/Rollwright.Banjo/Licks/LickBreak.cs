using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Banjo.Licks;

/// <summary>A lick written out as a small break, for every room that reads breaks: checker, writers, page, sound.</summary>
public static class LickBreak
{
    private static readonly Fraction Step = new(1, 8);

    // Slow enough to learn from (common practice, no source).
    private static readonly Tempo Learning = new(new Fraction(1, 2), 60);
    private static readonly Tempo LearningThrees = new(new Fraction(3, 8), 70);

    /// <param name="lick">The lick.</param>
    /// <param name="times">How often it is played in a row, 1 or more.</param>
    public static Break Of(Lick lick, int times = 1)
    {
        var time = TimeOf(lick);
        var once = Bars(lick, time);
        return new()
        {
            Title = lick.Name,
            Setting = new(lick.Tuning, 0, KeyOf(lick.Chord), -12),
            Time = time,
            Tempo = lick.IsInThrees ? LearningThrees : Learning,
            Bars = [.. Enumerable.Repeat(once, times).SelectMany(bars => bars)],
            Spans =
            [
                new(
                    lick.Role == LickRole.Tag ? SpanKind.Tag : SpanKind.Lick,
                    lick.Name,
                    0,
                    Fraction.Zero,
                    Step * lick.Length
                ),
            ],
        };
    }

    private static TimeSignature TimeOf(Lick lick) =>
        lick.IsInThrees
            ? lick.Length == 9
                ? new(9, 8)
                : new(6, 8)
            : lick.Length == 6
                ? new(3, 4)
                : TimeSignature.Cut;

    // A dominant seventh belongs to the key a fifth below it.
    private static Key KeyOf(Chord chord) =>
        chord.Quality switch
        {
            ChordQuality.DominantSeventh => new(PitchName.FromFifths(chord.Root.Fifths - 1)),
            ChordQuality.Minor or ChordQuality.MinorSeventh => new(chord.Root, Mode.Minor),
            _ => new(chord.Root),
        };

    private static ImmutableArray<BreakBar> Bars(Lick lick, TimeSignature time)
    {
        var perBar = (int)(time.Bar / Step).Numerator;
        var bars = ImmutableArray.CreateBuilder<BreakBar>();
        for (var first = 0; first < lick.Length; first += perBar)
        {
            var steps = lick.Steps.AsSpan(first, Math.Min(perBar, lick.Length - first));
            var length = Step * steps.Length;
            bars.Add(
                new()
                {
                    Length = length,
                    Time = time,
                    Strokes = Lengthened(Strokes(steps), length),
                    Chords = first == 0 ? [new(Fraction.Zero, lick.Chord)] : [],
                }
            );
        }
        return bars.ToImmutable();
    }

    private static ImmutableArray<Stroke> Strokes(ReadOnlySpan<LickStep> steps)
    {
        var strokes = ImmutableArray.CreateBuilder<Stroke>();
        for (var i = 0; i < steps.Length; i++)
        {
            var at = Step * i;
            foreach (var note in steps[i].Plucks)
                strokes.Add(Made(at, note.String, note.Fret, note.Left) with { Right = note.Right });
            if (steps[i].Slur is { } slur)
                strokes.Add(Made(at, slur.String, slur.Fret, slur.Left) with { Slur = slur.Kind });
            if (steps[i].HalfSlur is { } half)
                strokes.Add(
                    Made(at + (Step / new Fraction(2)), half.String, half.Fret, half.Left) with
                    {
                        Slur = half.Kind,
                    }
                );
        }
        return strokes.ToImmutable();
    }

    private static Stroke Made(Fraction at, int banjoString, int fret, int left) =>
        new()
        {
            At = at,
            Length = Step,
            String = banjoString,
            Fret = fret,
            Left = left == 0 ? null : left,
        };

    // Written lengths go to the next stroke, or to the end of the bar.
    private static ImmutableArray<Stroke> Lengthened(ImmutableArray<Stroke> strokes, Fraction bar) =>
        [
            .. strokes.Select(stroke =>
                stroke with
                {
                    Length =
                        strokes.Where(later => later.At > stroke.At).Select(later => later.At).Append(bar).Min()
                        - stroke.At,
                }
            ),
        ];
}
