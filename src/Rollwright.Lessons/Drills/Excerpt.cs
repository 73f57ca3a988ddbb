using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Drills;

/// <summary>Takes bars out of a break, to stand by themselves.</summary>
public static class Excerpt
{
    /// <summary>Bars with their rolls, licks and chords, without repeats; the tune itself is left behind.</summary>
    /// <param name="played">The break.</param>
    /// <param name="bars">Indices of written bars that follow each other, at least one.</param>
    /// <param name="title">Its title.</param>
    public static Break Of(Break played, ImmutableArray<int> bars, string title)
    {
        ArgumentNullException.ThrowIfNull(played);
        var taken = bars.Select(bar => played.Bars[bar] with { Marks = BarMarks.None }).ToImmutableArray();
        // A bar that ends early would be counted as a pickup where none is before it.
        if (taken[0].IsPartial && !played.Numbering[bars[0]].IsShortInFront)
            taken = taken.SetItem(0, Whole(taken[0]));
        if (taken[0].Chords.All(chord => chord.At > Fraction.Zero) && ChordBefore(played, bars[0]) is { } chord)
            taken = taken.SetItem(0, taken[0] with { Chords = taken[0].Chords.Insert(0, new(Fraction.Zero, chord)) });
        return played with
        {
            Title = title,
            Time = taken[0].Time,
            Bars = taken,
            Spans =
            [
                .. played
                    .Spans.Where(span => bars.Contains(span.Bar))
                    .Select(span => span with { Bar = bars.IndexOf(span.Bar) }),
            ],
            Tune = null,
        };
    }

    /// <summary>A break of other strokes in the same setting, metre and tempo.</summary>
    internal static Break OfStrokes(
        Break played,
        TimeSignature time,
        string title,
        params ImmutableArray<Stroke>[] bars
    ) =>
        played with
        {
            Title = title,
            Time = time,
            Bars =
            [
                .. bars.Select(strokes => new BreakBar
                {
                    Length = time.Bar,
                    Time = time,
                    Strokes = WithLengths(strokes, time.Bar),
                }),
            ],
            Spans = [],
            Tune = null,
        };

    /// <summary>
    /// The same with a repeat around it where hands can go from its end to its beginning; as it is where they can only play it
    /// once; null where they cannot play it at all by itself.
    /// </summary>
    internal static Break? Playable(Break played)
    {
        var repeated = played with
        {
            Bars = played
                .Bars.SetItem(0, played.Bars[0] with { Marks = played.Bars[0].Marks with { RepeatStart = true } })
                .SetLast(bar => bar with { Marks = bar.Marks with { RepeatEnd = 2 } }),
        };
        if (played.Bars.All(bar => bar.Strokes.IsEmpty))
            return null;
        return Checker.Check(repeated).IsEmpty ? repeated
            : Checker.Check(played).IsEmpty ? played
            : null;
    }

    private static ImmutableArray<BreakBar> SetLast(
        this ImmutableArray<BreakBar> bars,
        Func<BreakBar, BreakBar> change
    ) => bars.SetItem(bars.Length - 1, change(bars[^1]));

    private static BreakBar Whole(BreakBar bar) =>
        bar with
        {
            Length = bar.Time.Bar,
            Strokes = WithLengths(bar.Strokes, bar.Time.Bar),
        };

    private static Chord? ChordBefore(Break played, int bar)
    {
        for (var i = bar - 1; i >= 0; i--)
        {
            if (!played.Bars[i].Chords.IsEmpty)
                return played.Bars[i].Chords[^1].Chord;
        }
        return null;
    }

    private static ImmutableArray<Stroke> WithLengths(ImmutableArray<Stroke> strokes, Fraction bar) =>
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
