using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Labels;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Signs;
using Rollwright.Engraving.Spacing;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Forms;
using Rollwright.Music.Tunes;

namespace Rollwright.Engraving;

/// <summary>The way in: from a break to pages of ink that the writers print.</summary>
public static class Engraver
{
    /// <summary>Points from the line of string 1 to that of string 5 at scale 1.</summary>
    public static double TabHeight { get; } = new Sizes(1).TabHeight;

    /// <summary>
    /// Lays a break out. The same break and style always make the same layout. Where a bar is too full for the width,
    /// everything is set smaller until it fits.
    /// </summary>
    /// <param name="played">What is drawn.</param>
    /// <param name="style">The paper and what is shown.</param>
    /// <param name="spots">Spans to be marked above the tab with their names: where licks fit.</param>
    /// <exception cref="ArgumentException">The break has no bar, or the style leaves no room for music.</exception>
    public static Layout Lay(Break played, PageStyle style, ImmutableArray<Span> spots = default)
    {
        if (played.Bars.IsDefaultOrEmpty)
            throw new ArgumentException("There is nothing to draw: the break has no bar.", nameof(played));
        return Lay(played, 0, played.Bars.Length - 1, style, spots.IsDefault ? [] : spots);
    }

    /// <summary>Lays a tune out as fiddlers read it: one staff with its chords.</summary>
    /// <exception cref="ArgumentException">The tune has no bar, or the style leaves no room for music.</exception>
    public static Layout Lay(Tune tune, PageStyle style) =>
        Lay(
            TuneSheet.Of(tune),
            style with
            {
                OfTune = true,
                ShowNotation = true,
                ShowTab = false,
                ShowTune = false,
                ShowRightHand = false,
                ShowLegend = false,
                ShowDiagrams = false,
                ShowTempos = false,
                ShowNames = false,
            }
        );

    /// <summary>The same of some bars, for figures: numbers of bars and names of strokes stay as in the whole break.</summary>
    internal static Layout Lay(Break played, int first, int last, PageStyle style, ImmutableArray<Span> spots)
    {
        PageStyle.Check(style);
        var written = style.OfTune
            ? BreakReading.ReadTune(played, first, last)
            : BreakReading.Read(played, first, last);
        var layout = Lay(played, style, written, spots);
        if (!style.MaySaveAPage)
            return layout;
        foreach (var smaller in new[] { 0.94, 0.88 })
        {
            if (layout.Pages.Length == 1)
                break;
            var tighter = Lay(played, style with { Scale = style.Scale * smaller }, written, spots);
            if (tighter.Pages.Length < layout.Pages.Length)
                layout = tighter;
        }
        return layout;
    }

    private static Layout Lay(
        Break played,
        PageStyle style,
        ImmutableArray<WrittenBar> written,
        ImmutableArray<Span> spots
    )
    {
        var (sizes, bars, front) = Measure(played, style, written);
        var form = BreakReading.FormOf(written);
        var ends = new PartEnds(form);
        var opening = written[0].Index;
        var phrases = new PhraseNumbers(form, written[0].Index);
        var systems = SetSystems(bars, ends, style, sizes, front, style.ByPhrases ? phrases : null);
        var drawn = new SystemDrawing(played, spots, phrases, style, sizes, front).Draw(systems);
        if (style.InOneLine)
            style = style with { Width = systems[0].Right + style.Margin };
        var (pages, places) = new PageSetting(style, sizes, played.Title).Set(
            style.ShowHeading ? Heading.Draw(played, style, sizes) : null,
            drawn,
            Legend.Draw(played, style, sizes),
            system => ends.Before(systems[system].Bars[^1].Written.Index - opening + 1)
        );
        return new(
            played.Title,
            played.Composer,
            style.OfTune ? TuneSheet.WordsFor(played) : WordsFor(played),
            pages,
            PlacesOf(played, style, drawn, places),
            BarsOf(drawn, places)
        );
    }

    private static (Sizes, ImmutableArray<MeasuredBar>, SystemFront) Measure(
        Break played,
        PageStyle style,
        ImmutableArray<WrittenBar> written
    )
    {
        var scale = style.Scale;
        while (true)
        {
            var sizes = new Sizes(scale);
            var front = new SystemFront(played.Setting.Position, written[0].Bar.Time, style, sizes);
            var bars = new BarMeasuring(style, sizes).Measure(written);
            if (style.InOneLine)
                return (sizes, bars, front);
            var over = bars.Max(bar => bar.Least) / RoomFor(style, sizes, front, first: true);
            if (over is > 0 and <= 1)
                return (sizes, bars, front);
            // All widths shrink with the scale; a little more than needed, so that rounding does not come round again.
            scale *= over > 1 ? Math.Clamp(0.98 / over, 0.25, 0.95) : 0.7;
        }
    }

    private static double RoomFor(PageStyle style, Sizes sizes, SystemFront front, bool first) =>
        style.Width - (2 * style.Margin) - Brackets.WidthBefore(sizes) - front.WidthOf(first);

    private static ImmutableArray<SetSystem> SetSystems(
        ImmutableArray<MeasuredBar> bars,
        PartEnds ends,
        PageStyle style,
        Sizes sizes,
        SystemFront front,
        PhraseNumbers? phrases
    )
    {
        var lines = style.InOneLine
            ? [new(0, bars.Length, 1)]
            : LineBreaking.Choose(bars, ends, first => RoomFor(style, sizes, front, first), phrases);
        var left = style.Margin + Brackets.WidthBefore(sizes);
        return [.. lines.Select((line, i) => SystemSetting.Set(bars, line, i, left, front.WidthOf(i == 0), sizes))];
    }

    private static string WordsFor(Break played) =>
        $"{played.Title}: notation and tablature for five-string banjo, {played.Bars.Length} bars. "
        + Heading.SettingWords(played.Setting);

    private static ImmutableArray<StrokePlace> PlacesOf(
        Break played,
        PageStyle style,
        ImmutableArray<SystemDrawing.Drawn> systems,
        ImmutableArray<PageSetting.Placed> places
    )
    {
        var strokes = ImmutableArray.CreateBuilder<StrokePlace>();
        // Where no tab is, the heads are what is pointed at.
        var kind = style.ShowTab ? InkKind.TabNumber : InkKind.NoteHead;
        for (var i = 0; i < systems.Length; i++)
        {
            foreach (var ink in systems[i].Sheet.Inks)
            {
                if (ink.Kind != kind || ink.Stroke is not { } name)
                    continue;
                var at = style.OfTune
                    ? played.Tune!.Bars[name.Bar].Notes[name.Index].At
                    : played.Bars[name.Bar].Strokes[name.Index].At;
                var box = ink.Box.Moved(0, places[i].Down);
                strokes.Add(
                    new(name, at, places[i].Page, i, systems[i].System.ColumnOf(name.Bar, name.Index) ?? box.Left, box)
                );
            }
        }
        return strokes.ToImmutable();
    }

    private static ImmutableArray<BarPlace> BarsOf(
        ImmutableArray<SystemDrawing.Drawn> systems,
        ImmutableArray<PageSetting.Placed> places
    ) =>
        [
            .. systems.SelectMany(
                (drawn, i) =>
                    drawn.System.Bars.Select(bar => new BarPlace(
                        bar.Written.Index,
                        places[i].Page,
                        i,
                        new Box(bar.Left, drawn.Top, bar.Right, drawn.Bottom).Moved(0, places[i].Down)
                    ))
            ),
        ];
}
