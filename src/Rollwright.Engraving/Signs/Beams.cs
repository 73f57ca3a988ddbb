using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Signs;

/// <summary>Beams and the stems under them.</summary>
internal static class Beams
{
    // Staff spaces: the shortest stem under one beam, and the most that a beam rises or falls.
    private const double Shortest = 3;
    private const double Steepest = 1;

    public static void Draw(Sheet sheet, SetBar bar, Sizes sizes)
    {
        var moments = bar.Written.Moments;
        for (var first = 0; first < moments.Length; )
        {
            var after = first + 1;
            if (moments[first].Beam >= 0)
            {
                while (after < moments.Length && moments[after].Beam == moments[first].Beam)
                    after++;
                DrawGroup(sheet, bar, first, after, sizes);
            }
            first = after;
        }
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
        var flags = Enumerable.Range(first, after - first).Select(i => bar.Written.Moments[i].Value.Flags).ToArray();
        for (var level = 1; level <= flags.Max(); level++)
        {
            var offset = inward * (level - 1) * (sizes.Beam + sizes.BeamGap);
            foreach (var (from, to) in Runs(bar, first, flags, level))
            {
                var (left, right) = EndsOf(x, from, to, sizes);
                sheet.Add(BeamShape(line, left, right, offset, inward * sizes.Beam));
            }
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

    // Stretches of notes that have a beam of this level; finer beams stop at each quarter so that beats stay visible.
    private static IEnumerable<(int From, int To)> Runs(SetBar bar, int first, int[] flags, int level)
    {
        for (var from = 0; from < flags.Length; )
        {
            var to = from;
            if (flags[from] >= level)
            {
                while (
                    to + 1 < flags.Length
                    && flags[to + 1] >= level
                    && (level == 1 || QuarterOf(to + 1) == QuarterOf(from))
                )
                    to++;
                yield return (from, to);
            }
            from = to + 1;
        }

        long QuarterOf(int index)
        {
            var beat = bar.Written.Bar.Time.IsCompound ? bar.Written.Bar.Time.Beat : new Fraction(1, 4);
            return ((bar.Written.Moments[first + index].At + bar.Written.Offset) / beat).Floor();
        }
    }

    // A beam over one note is a stub towards the note it belongs to.
    private static (double Left, double Right) EndsOf(double[] x, int from, int to, Sizes sizes)
    {
        var half = sizes.Stem / 2;
        if (to > from)
            return (x[from] - half, x[to] + half);
        var stub = 1.1 * sizes.Space;
        return from == 0 ? (x[from] - half, x[from] + stub) : (x[from] - stub, x[from] + half);
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
