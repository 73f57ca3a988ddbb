using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Png;
using Rollwright.Lessons.Captions;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Strips;

/// <summary>
/// The tab of a break as one line, to lay over a video of it. Repeats are written out, so that what comes next always stands to
/// the right. The line stands still while the mark goes through it, since what moves is hard to read, and is pushed on by whole
/// bars as soon as the last bar that is wholly seen begins: at least one bar ahead is in view.
/// </summary>
public sealed class TabStrip
{
    /// <summary>
    /// At most so many pictures: about 130 MB at the usual width, the notes of sixteen reels. A break with more notes has a picture a bar.
    /// How long the take is does not count.
    /// </summary>
    public const int MostPictures = 4000;

    /// <summary>Points that are seen at once: about four bars of a reel, with numbers of 24 pixels on 1280.</summary>
    public const double Seen = 490;

    // White left of the bar that what is seen begins with.
    private const double Before = 9;
    private const double HalfMark = 6.2;

    // How far the mark reaches over the staff.
    private const double Over = 5;

    private TabStrip(Layout layout, ImmutableArray<StripStep> steps, bool isByBar) =>
        (Layout, Steps, IsByBar) = (layout, steps, isByBar);

    /// <summary>One page, as long as the break is played.</summary>
    public Layout Layout { get; }

    /// <summary>Without a hole from the start of the take to the end of its last bar.</summary>
    public ImmutableArray<StripStep> Steps { get; }

    /// <summary>Whether whole bars are marked, there being too many notes.</summary>
    public bool IsByBar { get; }

    /// <param name="played">The break.</param>
    /// <param name="times">When its bars are played.</param>
    /// <param name="isLow">Whether it has lines, numbers and slurs alone.</param>
    /// <exception cref="LessonException">Even one picture a bar would be too many.</exception>
    public static TabStrip Of(Break played, BarTimes times, bool isLow = false)
    {
        ArgumentNullException.ThrowIfNull(played);
        ArgumentNullException.ThrowIfNull(times);
        if (times.Bars.Length >= MostPictures)
            throw new LessonException(
                $"{times.Bars.Length} bars as played are more than a strip of {MostPictures} pictures has room for; give --bar-times of fewer bars"
            );
        var whole = isLow ? WithoutParts(played.WrittenOut()) : played.WrittenOut();
        var layout = WithRoomForMark(Engraver.Lay(whole, isLow ? PageStyle.LowStrip : PageStyle.Strip));
        var moments = Moments(whole, times);
        var isByBar = moments.Count >= MostPictures;
        if (isByBar)
            moments = [.. times.Bars.Select((bar, i) => new Moment(bar.From, i, null))];
        var places = layout.Strokes.ToDictionary(place => place.Stroke);
        ImmutableArray<Box> bars = [.. layout.Bars.Select(bar => bar.Box)];
        var steps = ImmutableArray.CreateBuilder<StripStep>(moments.Count + 1);
        var left = 0.0;
        if (moments[0].At > 0)
            steps.Add(new(0, moments[0].At, -1, left, null));
        for (var i = 0; i < moments.Count; i++)
        {
            var (at, bar, stroke) = moments[i];
            var mark = MarkOf(bars[bar], stroke is { } name ? places[new(bar, name)].X : null);
            left = LeftFor(bars, bar, mark, left);
            steps.Add(new(at, i + 1 < moments.Count ? moments[i + 1].At : times.Bars[^1].To, bar, left, mark));
        }
        return new(layout, steps.ToImmutable(), isByBar);
    }

    /// <param name="At">Seconds.</param>
    /// <param name="Bar">As played, from 0.</param>
    /// <param name="Stroke">The first stroke of the moment; null where the whole bar is meant.</param>
    private readonly record struct Moment(double At, int Bar, int? Stroke);

    // When each note sounds: swung as the break is, within the bar as it is really played.
    private static List<Moment> Moments(Break whole, BarTimes times)
    {
        var swung = SwungTime.Of(whole);
        var moments = new List<Moment>();
        var start = Fraction.Zero;
        for (var i = 0; i < times.Bars.Length; i++)
        {
            var (bar, time) = (whole.Bars[i], times.Bars[i]);
            for (var stroke = 0; stroke < bar.Strokes.Length; stroke++)
            {
                if (stroke > 0 && bar.Strokes[stroke].At == bar.Strokes[stroke - 1].At)
                    continue;
                var share = (swung.At(start + bar.Strokes[stroke].At) - start).ToDouble() / bar.Length.ToDouble();
                moments.Add(new(time.From + (share * (time.To - time.From)), i, stroke));
            }
            if (moments.Count == 0 || (bar.Strokes.IsEmpty && moments[^1].Bar < i))
                moments.Add(new(time.From, i, null));
            start += bar.Length;
        }
        return moments;
    }

    // A letter above the staff would make all of the strip higher.
    private static Break WithoutParts(Break whole) =>
        whole with
        {
            Bars = [.. whole.Bars.Select(bar => bar with { Marks = bar.Marks with { Part = null } })],
        };

    // Where little stands above the staff the mark would not be seen whole.
    private static Layout WithRoomForMark(Layout layout)
    {
        var down = Over + StripPictures.PointHeight - layout.Bars[0].Box.Top;
        var page = layout.Pages[0];
        return down <= 0
            ? layout
            : layout with
            {
                Pages =
                [
                    page with
                    {
                        Height = page.Height + down,
                        Inks = [.. page.Inks.Select(ink => ink.Moved(0, down))],
                    },
                ],
                Bars = [.. layout.Bars.Select(place => place with { Box = place.Box.Moved(0, down) })],
                Strokes = [.. layout.Strokes.Select(place => place with { Number = place.Number.Moved(0, down) })],
            };
    }

    private static Box MarkOf(Box bar, double? x) =>
        x is { } middle
            ? new(middle - HalfMark, bar.Top - Over, middle + HalfMark, bar.Bottom + Over)
            : bar with
            {
                Top = bar.Top - Over,
                Bottom = bar.Bottom + Over,
            };

    private static double LeftFor(ImmutableArray<Box> bars, int bar, Box mark, double left)
    {
        var right = left + Seen;
        var isFirstSeen = bars[bar].Left - Before <= left + 1;
        var ahead = bars[Math.Min(bar + 1, bars.Length - 1)].Right;
        if (ahead > right && !isFirstSeen)
            (left, right) = (bars[bar].Left - Before, bars[bar].Left - Before + Seen);
        // A bar that is wider than what is seen.
        return mark.Width < Seen / 2 && (mark.Right > right || mark.Left < left) ? mark.Left - (4 * Before) : left;
    }
}
