using System.Globalization;
using System.Text;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using SkiaSharp;

namespace Rollwright.Engraving.Svg;

/// <summary>Writes outlines in the path language of SVG 1.1.</summary>
internal static class SvgPath
{
    /// <summary>Hundredths of a point: finer than any printer.</summary>
    public static string Of(double value) =>
        (Math.Round(value, 2) + 0.0).ToString("0.##", CultureInfo.InvariantCulture);

    public static string Of(Rules rules)
    {
        var path = new StringBuilder();
        foreach (var (from, to) in rules.Segments)
        {
            path.Append('M').Append(Of(from.X)).Append(' ').Append(Of(from.Y));
            if (from.Y == to.Y)
                path.Append('H').Append(Of(to.X));
            else if (from.X == to.X)
                path.Append('V').Append(Of(to.Y));
            else
                path.Append('L').Append(Of(to.X)).Append(' ').Append(Of(to.Y));
        }
        return path.ToString();
    }

    public static string Of(Shape shape)
    {
        var path = new StringBuilder("M").Append(Of(shape.Start.X)).Append(' ').Append(Of(shape.Start.Y));
        foreach (var turn in shape.Turns)
        {
            if (turn is { Control1: { } first, Control2: { } second })
                Append(path, 'C', first, second, turn.To);
            else
                Append(path, 'L', turn.To);
        }
        return path.Append('Z').ToString();
    }

    /// <summary>A sign of the music font at a size, about its origin.</summary>
    public static string Of(Glyph glyph, double space)
    {
        var path = new StringBuilder();
        using var iterator = MusicFont.OutlineOf(glyph).CreateRawIterator();
        var points = new SKPoint[4];
        for (var verb = iterator.Next(points); verb != SKPathVerb.Done; verb = iterator.Next(points))
        {
            switch (verb)
            {
                case SKPathVerb.Move:
                    Append(path, 'M', At(0));
                    break;
                case SKPathVerb.Line:
                    Append(path, 'L', At(1));
                    break;
                case SKPathVerb.Quad:
                    Append(path, 'Q', At(1), At(2));
                    break;
                case SKPathVerb.Cubic:
                    Append(path, 'C', At(1), At(2), At(3));
                    break;
                case SKPathVerb.Close:
                    path.Append('Z');
                    break;
            }
        }
        return path.ToString();

        Place At(int index) => new(points[index].X * space, points[index].Y * space);
    }

    private static void Append(StringBuilder path, char command, params ReadOnlySpan<Place> places)
    {
        path.Append(command);
        for (var i = 0; i < places.Length; i++)
        {
            if (i > 0)
                path.Append(' ');
            path.Append(Of(places[i].X)).Append(' ').Append(Of(places[i].Y));
        }
    }
}
