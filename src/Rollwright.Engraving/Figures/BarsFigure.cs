using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;

namespace Rollwright.Engraving.Figures;

/// <summary>Some bars of a break as a figure: cropped to the ink, with the chord that goes on from before.</summary>
public static class BarsFigure
{
    /// <param name="played">The whole break; names of strokes and numbers of bars stay those of it.</param>
    /// <param name="first">Index of the first written bar.</param>
    /// <param name="last">Index of the last one.</param>
    /// <param name="page">What is shown; its paper does not count.</param>
    /// <param name="style">Width and caption.</param>
    /// <exception cref="ArgumentException">There are no such bars, or the width leaves no room for music.</exception>
    public static Layout Lay(Break played, int first, int last, PageStyle page, FigureStyle style)
    {
        Figure.Check(style);
        if (first < 0 || last < first || last >= played.Bars.Length)
            throw new ArgumentException(
                $"There are no bars {first} to {last}; the break has {played.Bars.Length}, counted from 0.",
                nameof(first)
            );
        var layout = Engraver.Lay(
            WithChord(played, first),
            first,
            last,
            page with
            {
                Width = Math.Max(style.Width, 150),
                Height = null,
                Margin = Figure.Edge,
                ShowHeading = false,
                ShowLegend = false,
                MaySaveAPage = false,
            },
            []
        );
        var (cropped, dx, dy) = Figure.Crop(layout.Pages[0].Inks, style);
        return layout with
        {
            Words = $"Bars of {layout.Title} as tablature for five-string banjo. {style.Caption}".TrimEnd(),
            Pages = [cropped],
            Strokes =
            [
                .. layout.Strokes.Select(place => place with { X = place.X + dx, Number = place.Number.Moved(dx, dy) }),
            ],
            Bars = [.. layout.Bars.Select(place => place with { Box = place.Box.Moved(dx, dy) })],
        };
    }

    private static Break WithChord(Break played, int first)
    {
        var chords = played.ChordsInForce.SaidAnew(first);
        return played with { Bars = played.Bars.SetItem(first, played.Bars[first] with { Chords = chords }) };
    }
}
