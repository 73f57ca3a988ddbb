using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;
using Rollwright.Engraving.Labels;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Signs;
using Rollwright.Engraving.Tab;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Spacing;

/// <summary>Measures bars: distances by duration, with the least that ink of both staves needs.</summary>
internal sealed class BarMeasuring(PageStyle style, Sizes sizes)
{
    // Points of one step of the roll at a stretch of 1: four bars of eight fill the width of a page.
    private const double StepDistance = 13.4;

    // A note twice as long gets this much more room (engravers use 1.4 to 1.6; from memory).
    private const double Growth = 1.45;

    public ImmutableArray<MeasuredBar> Measure(ImmutableArray<WrittenBar> bars)
    {
        var measured = ImmutableArray.CreateBuilder<MeasuredBar>(bars.Length);
        for (var i = 0; i < bars.Length; i++)
        {
            var newTime = i > 0 && bars[i].Bar.Time != bars[i - 1].Bar.Time;
            measured.Add(Measure(bars[i], newTime));
        }
        return measured.MoveToImmutable();
    }

    private MeasuredBar Measure(WrittenBar bar, bool newTime)
    {
        var up = StemDirections.Of(bar);
        ImmutableArray<HeadStack> stacks = [.. bar.Moments.Select((moment, i) => HeadStack.Of(moment, up[i]))];
        var count = bar.Moments.Length;
        var extents = new Extents[count];
        for (var i = 0; i < count; i++)
            extents[i] = ExtentsOf(bar, bar.Moments[i], stacks[i]);

        var springs = new Spring[count];
        for (var i = 0; i < count; i++)
        {
            var least =
                i + 1 < count
                    ? Math.Max(
                        extents[i].Right + extents[i + 1].Left + (0.35 * sizes.Space),
                        Math.Max(
                            extents[i].TabRight + extents[i + 1].TabLeft + (1.2 * sizes.Scale),
                            extents[i].FingerHalf + extents[i + 1].FingerHalf + (1.5 * sizes.Scale)
                        )
                    )
                    : Math.Max(extents[i].Right, extents[i].TabRight) + (0.7 * sizes.Space);
            if (i + 1 < count && LetterWidth(bar, bar.Moments[i + 1]) is > 0 and var letter)
                least = Math.Max(least, extents[i].TabRight + extents[i + 1].TabLeft + letter + (2.7 * sizes.Scale));
            springs[i] = new(IdealOf(bar.Moments[i].Length, bar.Bar.Time), least);
        }
        MakeRoomForChords(bar, springs);
        var front = BarLines.StartWidth(bar.Bar.Marks, sizes) + (count > 0 ? FrontGap(extents[0]) : 2 * sizes.Space);
        if (newTime)
            front += TimeSignatures.WidthOf(bar.Bar.Time, sizes) + sizes.Space;
        return new(bar, up, stacks, front, [.. springs], BarLines.EndWidth(bar.Bar.Marks, sizes), newTime);
    }

    private double FrontGap(Extents first) =>
        Math.Max(1.5 * sizes.Space, Math.Max(first.Left, first.TabLeft) + (0.7 * sizes.Space));

    private double IdealOf(Fraction length, TimeSignature time) =>
        StepDistance * sizes.Scale * Math.Pow(Growth, Math.Log2(length.ToDouble() / time.Step.ToDouble()));

    // Room for the letter of a slur between its two numbers; 0 where none ends here.
    private double LetterWidth(WrittenBar bar, WrittenMoment moment) =>
        !moment.IsStruck || !style.ShowTab
            ? 0
            : moment
                .Notes.Select(note => bar.Bar.Strokes[note.Stroke].Slur)
                .Where(slur => slur is not null)
                .Select(slur => Lettering.WidthOf(SlurNames.Letter(slur!.Value), sizes.SlurLetter, Face.Italic))
                .DefaultIfEmpty(0)
                .Max();

    private Extents ExtentsOf(WrittenBar bar, WrittenMoment moment, HeadStack stack)
    {
        var left = style.ShowNotation ? -stack.Left * sizes.Space : 0;
        var right = style.ShowNotation ? stack.Right * sizes.Space : 0;
        if (!moment.IsStruck || style.OfTune)
            return new(left, right, 0, 0, 0);
        var half = moment.Notes.Max(note => TabNumbers.WidthOf(bar.Bar.Strokes[note.Stroke], style, sizes) / 2);
        var finger = moment
            .Notes.Select(note => bar.Bar.Strokes[note.Stroke].Right)
            .Where(right => right is not null && style.ShowRightHand)
            .Select(right => Lettering.WidthOf($"{right}", sizes.Finger, Face.Roman) / 2)
            .DefaultIfEmpty(0)
            .Max();
        return new(left, right, half, half, finger);
    }

    // Chord names stand over their columns; the next one must not run into them.
    private void MakeRoomForChords(WrittenBar bar, Spring[] springs)
    {
        if (!style.ShowChords || springs.Length == 0)
            return;
        var columns = ChordNames.In(bar).GroupBy(name => name.Column).ToList();
        for (var i = 0; i < columns.Count; i++)
        {
            var from = columns[i].Key;
            var to = i + 1 < columns.Count ? columns[i + 1].Key : springs.Length;
            var need = columns[i].Sum(name => ChordNames.WidthOf(name.Text, sizes));
            var have = springs[from..to].Sum(spring => spring.Least);
            for (var k = from; k < to && have < need; k++)
                springs[k] = springs[k] with { Least = springs[k].Least + ((need - have) / (to - from)) };
        }
    }

    /// <summary>Points that the ink of a column takes on both sides of its middle.</summary>
    private readonly record struct Extents(
        double Left,
        double Right,
        double TabLeft,
        double TabRight,
        double FingerHalf
    );
}
