using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Licks;
using Rollwright.Engraving;
using Rollwright.Engraving.Figures;
using Rollwright.Engraving.Svg;
using Rollwright.Music.Tunes;

namespace Rollwright.Web.State;

/// <summary>How a break is looked at.</summary>
public enum BreakView
{
    /// <summary>One phrase a row, the tune above it.</summary>
    Phrases,

    /// <summary>As it is printed, notation above tab.</summary>
    Printed,
}

/// <summary>A break drawn for the page, once for each view that is looked at.</summary>
public sealed class Drawing
{
    public const string NarrowPrefix = "narrow-";

    // Drawn for a column narrower than the sheet, so that the page enlarges it: to be read at arm's length.
    private static readonly PageStyle WideStyle = PageStyle.Continuous(500);

    private static readonly PageStyle NarrowRows = PageStyle.PhraseRows with { Width = 390, Scale = 1.2 };

    private static readonly PageStyle LickStyle = PageStyle.Continuous(230) with
    {
        ShowNotation = false,
        ShowHeading = false,
        ShowLegend = false,
        ShowChords = false,
        Margin = 4,
    };

    private static readonly PageStyle TuneStyle = PageStyle.Continuous(300) with
    {
        Scale = 0.85,
        Margin = 4,
        ShowHeading = false,
    };

    private readonly Arrangement made;
    private DrawnView? phrases;
    private DrawnView? printed;

    private Drawing(Arrangement made) => this.made = made;

    public static Drawing Of(Arrangement made)
    {
        ArgumentNullException.ThrowIfNull(made);
        return new(made);
    }

    /// <summary>Some bars with notation and tab, cropped to their ink.</summary>
    public static string OfBars(Break played, ImmutableArray<int> bars, string prefix) =>
        SvgWriter.Write(
            BarsFigure.Lay(played, bars[0], bars[^1], WideStyle, new(WideStyle.Width)),
            options: new() { FixedSize = false, Prefix = prefix }
        );

    public DrawnView In(BreakView view) =>
        view == BreakView.Phrases
            ? phrases ??= new(Draw(made, PageStyle.PhraseRows, ""), Draw(made, NarrowRows, NarrowPrefix))
            : printed ??= new(Draw(made, WideStyle, ""), Draw(made, PageStyle.Phone, NarrowPrefix));

    /// <summary>
    /// A break that was not arranged here, as it is printed: for wide windows, and for narrow ones with
    /// <see cref="NarrowPrefix"/> behind the prefix.
    /// </summary>
    public static (string Wide, string Narrow) Of(Break played, string prefix = "")
    {
        return (Draw(WideStyle, prefix), Draw(PageStyle.Phone, prefix + NarrowPrefix));

        string Draw(PageStyle style, string prefix) =>
            SvgWriter.Write(
                Engraver.Lay(played, style with { ShowHeading = false, Margin = 8 }),
                options: new() { FixedSize = false, Prefix = prefix }
            );
    }

    /// <summary>Lets go of what is drawn; it is drawn again when it is looked at.</summary>
    public void Rest() => (phrases, printed) = (null, null);

    /// <summary>A tune as fiddlers read it.</summary>
    public static string Of(Tune tune, string prefix) =>
        SvgWriter.Write(Engraver.Lay(tune, TuneStyle), options: new() { FixedSize = false, Prefix = prefix });

    /// <summary>In phrases, narrow, to stand beside another: its ids begin otherwise.</summary>
    public static DrawnPage Beside(Arrangement made, string prefix) => Draw(made, NarrowRows, prefix);

    /// <summary>A lick alone, as tab.</summary>
    public static string Of(Lick lick, string prefix) =>
        SvgWriter.Write(
            Engraver.Lay(LickBreak.Of(lick), LickStyle),
            options: new() { FixedSize = false, Prefix = prefix }
        );

    // The page says the title and the setting itself.
    private static DrawnPage Draw(Arrangement made, PageStyle style, string prefix)
    {
        var layout = Engraver.Lay(made.Break, style with { ShowHeading = false, Margin = 4 });
        var svg = SvgWriter.Write(layout, options: new() { FixedSize = false, Prefix = prefix });
        return new(svg, StepPlaces.Of(layout, made.Grid, style));
    }
}

/// <summary>One view, for wide and for narrow windows; the style sheet shows the one that fits.</summary>
/// <param name="Wide">Strokes have the ids s-BAR-STROKE.</param>
/// <param name="Narrow">The same ids with <see cref="Drawing.NarrowPrefix"/> before them.</param>
public sealed record DrawnView(DrawnPage Wide, DrawnPage Narrow);

/// <param name="Svg">The page.</param>
/// <param name="Places">Where its steps are.</param>
public sealed record DrawnPage(string Svg, StepPlaces Places);
