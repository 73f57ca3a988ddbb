using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Signs;

/// <summary>Beams and the stems under them.</summary>
internal static class Beams
{
    // Staff spaces: the shortest stem under one beam, and the most that a beam rises or falls.
    private const double Shortest = 3;
    private const double Steepest = 1;

    public static void Draw(Sheet sheet, SetBar bar, Sizes sizes)
    {
        foreach (var (first, after) in BeamRuns.Groups(bar))
            DrawGroup(sheet, bar, first, after, sizes);
    }

    private static void DrawGroup(Sheet sheet, SetBar bar, int first, int after, Sizes sizes)
    {
        var up = bar.Bar.StemsUp[first];
        var stacks = bar.Bar.Stacks;
        var x = new double[after - first];
        for (var i = first; i < after; i++)
            x[i - first] = Stems.XOf(stacks[i], up, bar.Columns[i], sizes);
        var line = LineOf(bar, first, after, up, x, sizes);
        for (var i = first; i < after; i++)
            Stems.Draw(sheet, stacks[i], up, x[i - first], line.At(x[i - first]), sizes);

        var inward = up ? 1 : -1;
        foreach (var (level, from, to) in BeamRuns.Of(bar, first, after))
        {
            var (left, right) = BeamRuns.EndsOf(x, from, to, sizes);
            var offset = inward * (level - 1) * (sizes.Beam + sizes.BeamGap);
            sheet.Add(BeamShape(line, left, right, offset, inward * sizes.Beam));
        }
    }

    // The straight line of the outer beam's outer edge: it leans as the melody does, at half its slope.
    private static Line LineOf(SetBar bar, int first, int after, bool up, double[] x, Sizes sizes)
    {
        var outward = up ? -1 : 1;
        var ends = new double[after - first];
        var most = 0;
        for (var i = first; i < after; i++)
        {
            var heads = bar.Bar.Stacks[i].Heads;
            ends[i - first] = Staff.Y(up ? heads.Max(head => head.Step) : heads.Min(head => head.Step), sizes);
            most = Math.Max(most, bar.Written.Moments[i].Value.Flags);
        }
        var lean = Math.Clamp((ends[^1] - ends[0]) * 0.5, -Steepest * sizes.Space, Steepest * sizes.Space);
        // Where an inner note reaches further than both ends, a leaning beam would mislead.
        if (ends.Length > 2 && ends[1..^1].Any(end => outward * end > Math.Max(outward * ends[0], outward * ends[^1])))
            lean = 0;
        var slope = x[^1] > x[0] ? lean / (x[^1] - x[0]) : 0;
        var shortest = (Shortest + (0.5 * Math.Max(0, most - 1))) * sizes.Space;
        var height = double.NegativeInfinity;
        for (var i = 0; i < ends.Length; i++)
        {
            var wanted = Math.Max((outward * ends[i]) + shortest, 0);
            height = Math.Max(height, wanted - (outward * slope * (x[i] - x[0])));
        }
        return new(x[0], outward * height, slope);
    }

    private static Shape BeamShape(Line line, double left, double right, double offset, double thickness) =>
        new(
            InkKind.Beam,
            new(left, line.At(left) + offset),
            [
                new(new(right, line.At(right) + offset)),
                new(new(right, line.At(right) + offset + thickness)),
                new(new(left, line.At(left) + offset + thickness)),
            ]
        );

    private readonly record struct Line(double X, double Y, double Slope)
    {
        public double At(double x) => Y + (Slope * (x - X));
    }
}
