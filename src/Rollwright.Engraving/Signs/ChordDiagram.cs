using System.Globalization;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Labels;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Signs;

/// <summary>
/// A chord as a picture of the neck: the four long strings from 4 at the left to 1 at the right, the nut above, a dot where a
/// finger is, a ring over open strings, the finger's number below.
/// </summary>
internal static class ChordDiagram
{
    private const int Strings = 4;
    private const int FewestFrets = 4;

    public static double WidthOf(Sizes sizes) => ((Strings - 1) * StringGap(sizes)) + (2 * Dot(sizes));

    private static double StringGap(Sizes sizes) => 5.2 * sizes.Scale;

    private static double FretGap(Sizes sizes) => 5.4 * sizes.Scale;

    private static double Dot(Sizes sizes) => 2 * sizes.Scale;

    /// <param name="left">Where its room starts.</param>
    /// <returns>The diagram with its top line at y = 0.</returns>
    public static Sheet Draw(DiagramShape shape, double left, Sizes sizes)
    {
        var sheet = new Sheet();
        var x = left + Dot(sizes);
        var right = x + ((Strings - 1) * StringGap(sizes));
        var held = shape.Frets.Where(fret => fret > 0).ToList();
        var highest = held.Count == 0 ? 0 : held.Max();
        var first = highest <= FewestFrets ? 1 : held.Min();
        var frets = Math.Max(FewestFrets, highest - first + 1);
        var bottom = frets * FretGap(sizes);
        var lines = new List<Segment>();
        for (var i = 0; i < Strings; i++)
            lines.Add(new(x + (i * StringGap(sizes)), 0, x + (i * StringGap(sizes)), bottom));
        for (var fret = 0; fret <= frets; fret++)
            lines.Add(new(x, fret * FretGap(sizes), right, fret * FretGap(sizes)));
        sheet.Add(new Rules(InkKind.ChordDiagram, [.. lines], 0.5 * sizes.Scale));
        if (first == 1)
            sheet.Add(new Rules(InkKind.ChordDiagram, [new(x, 0, right, 0)], 1.6 * sizes.Scale));
        else
            Write(sheet, first, x - (2.6 * sizes.Scale), 0.5 * FretGap(sizes), Anchor.Right, sizes);
        for (var i = 0; i < Strings; i++)
        {
            var at = x + (i * StringGap(sizes));
            if (shape.Frets[i] == 0)
            {
                sheet.Add(Ring(at, -3.2 * sizes.Scale, 1.3 * sizes.Scale));
                continue;
            }
            sheet.Add(Disc(at, (shape.Frets[i] - first + 0.5) * FretGap(sizes), Dot(sizes)));
            if (shape.Fingers[i] > 0)
                Write(sheet, shape.Fingers[i], at, bottom + (4.2 * sizes.Scale), Anchor.Middle, sizes);
        }
        return sheet;
    }

    private static void Write(Sheet sheet, int number, double x, double middle, Anchor anchor, Sizes sizes)
    {
        var size = 5.6 * sizes.Scale;
        var text = number.ToString(CultureInfo.InvariantCulture);
        var baseline = middle + (size * Lettering.CapitalHeight / 2);
        sheet.Add(new Words(InkKind.ChordDiagram, text, x, baseline, size, Face.Plain, anchor));
    }

    private static Shape Disc(double x, double y, double radius)
    {
        // Four cubic curves whose control places stand 0.5523 of the radius off their ends: a circle to a thousandth.
        var reach = 0.5523 * radius;
        return new(
            InkKind.ChordDiagram,
            new(x - radius, y),
            [
                new(new(x, y - radius), new(x - radius, y - reach), new(x - reach, y - radius)),
                new(new(x + radius, y), new(x + reach, y - radius), new(x + radius, y - reach)),
                new(new(x, y + radius), new(x + radius, y + reach), new(x + reach, y + radius)),
                new(new(x - radius, y), new(x - reach, y + radius), new(x - radius, y + reach)),
            ]
        );
    }

    // A ring as a line of short straight pieces: ink has no curved lines, and none is seen at this size.
    private static Rules Ring(double x, double y, double radius)
    {
        const int Pieces = 20;
        Place At(int i) =>
            new(x + (radius * Math.Cos(2 * Math.PI * i / Pieces)), y + (radius * Math.Sin(2 * Math.PI * i / Pieces)));
        return new(
            InkKind.ChordDiagram,
            [.. Enumerable.Range(0, Pieces).Select(i => new Segment(At(i), At(i + 1)))],
            radius * 0.35
        );
    }
}
