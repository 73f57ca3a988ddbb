using System.Collections.Immutable;
using Rollwright.Banjo.Tunings;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Tab;

/// <summary>
/// The five lines of the tab, string 1 on top, and the letters at their front (SMuFL has tab clefs for four and six
/// strings only). The top line is y = 0 of its sheet.
/// </summary>
internal static class TabStaff
{
    private const string Letters = "TAB";

    public static double Y(int banjoString, Sizes sizes) => (banjoString - 1) * sizes.TabSpace;

    /// <summary>Points from the left end of the staff to the letters.</summary>
    public static double LettersX(Sizes sizes) => 1.4 * sizes.Space;

    public static double LettersWidth(Sizes sizes) => Lettering.WidthOf("A", sizes.TabLetters, Face.PlainBold);

    /// <summary>
    /// The lines, which leave paper free around each number and each letter that stands on them, so that both read like
    /// print.
    /// </summary>
    /// <param name="on">What stands on the staff.</param>
    public static Rules Lines(Sheet on, SetSystem system, Sizes sizes) => Lines(on, system.Left, system.Right, sizes);

    /// <summary>The same between two places.</summary>
    public static Rules Lines(Sheet on, double left, double right, Sizes sizes)
    {
        var standing = on
            .Inks.Where(ink => ink.Kind is InkKind.TabNumber or InkKind.SlurLetter)
            .Select(ink => ink.Box)
            .OrderBy(box => box.Left)
            .ToList();
        var segments = ImmutableArray.CreateBuilder<Segment>();
        for (var banjoString = 1; banjoString <= Neck.Strings; banjoString++)
        {
            var y = Y(banjoString, sizes);
            var x = left;
            foreach (var box in standing.Where(box => box.Top < y && y < box.Bottom))
            {
                if (box.Left - sizes.NumberGap > x)
                    segments.Add(new(x, y, box.Left - sizes.NumberGap, y));
                x = Math.Max(x, box.Right + sizes.NumberGap);
            }
            segments.Add(new(x, y, right, y));
        }
        return new(InkKind.TabLine, segments.ToImmutable(), sizes.TabLine);
    }

    public static void DrawLetters(Sheet sheet, SetSystem system, Sizes sizes)
    {
        var x = system.Left + LettersX(sizes) + (LettersWidth(sizes) / 2);
        for (var i = 0; i < Letters.Length; i++)
        {
            // One letter on each of the second, third and fourth of five equal places of the staff.
            var middle = sizes.TabHeight * (0.16 + (0.34 * i));
            var baseline = middle + (sizes.TabLetters * Lettering.CapitalHeight / 2);
            sheet.Add(
                new Words(
                    InkKind.TabLetters,
                    Letters[i..(i + 1)],
                    x,
                    baseline,
                    sizes.TabLetters,
                    Face.PlainBold,
                    Anchor.Middle
                )
            );
        }
    }
}
