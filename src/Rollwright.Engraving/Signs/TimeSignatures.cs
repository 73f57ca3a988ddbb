using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Signs;

/// <summary>The metre: C and cut C for 4/4 and 2/2, numbers otherwise.</summary>
internal static class TimeSignatures
{
    public static double WidthOf(TimeSignature time, Sizes sizes) =>
        sizes.Space
        * (
            SymbolOf(time) is { } symbol ? MusicFont.WidthOf(symbol) : Math.Max(WidthOf(time.Beats), WidthOf(time.Unit))
        );

    /// <param name="middle">Height of the staff's middle line.</param>
    /// <param name="space">Points of one staff space.</param>
    public static void Draw(Sheet sheet, TimeSignature time, double x, double middle, double space)
    {
        if (SymbolOf(time) is { } symbol)
        {
            sheet.Add(new Sign(InkKind.TimeSignature, symbol, x, middle, space));
            return;
        }
        var width = Math.Max(WidthOf(time.Beats), WidthOf(time.Unit));
        DrawNumber(sheet, time.Beats, x + ((width - WidthOf(time.Beats)) / 2 * space), middle - space, space);
        DrawNumber(sheet, time.Unit, x + ((width - WidthOf(time.Unit)) / 2 * space), middle + space, space);
    }

    private static Glyph? SymbolOf(TimeSignature time) =>
        time == TimeSignature.Common ? Glyph.CommonTime
        : time == TimeSignature.Cut ? Glyph.CutTime
        : null;

    private static double WidthOf(int number) => Digits(number).Sum(digit => MusicFont.WidthOf(Glyph.TimeDigit(digit)));

    private static void DrawNumber(Sheet sheet, int number, double x, double y, double space)
    {
        foreach (var digit in Digits(number))
        {
            sheet.Add(new Sign(InkKind.TimeSignature, Glyph.TimeDigit(digit), x, y, space));
            x += MusicFont.WidthOf(Glyph.TimeDigit(digit)) * space;
        }
    }

    private static IEnumerable<int> Digits(int number) => $"{number}".Select(digit => digit - '0');
}
