using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Signs;

/// <summary>The 3 over triplets; a bracket where no beam shows what belongs together.</summary>
internal static class Tuplets
{
    /// <param name="lowest">Where the sign stands when no ink is higher.</param>
    public static void Draw(Sheet sheet, SetBar bar, double lowest, Sizes sizes)
    {
        var moments = bar.Written.Moments;
        for (var first = 0; first < moments.Length; )
        {
            var after = first + 1;
            if (moments[first].Triplet)
            {
                var sum = moments[first].Length;
                while (after < moments.Length && moments[after].Triplet && sum.Denominator % 3 == 0)
                    sum += moments[after++].Length;
                DrawOne(sheet, bar, first, after, lowest, sizes);
            }
            first = after;
        }
    }

    private static void DrawOne(Sheet sheet, SetBar bar, int first, int after, double lowest, Sizes sizes)
    {
        var half = sizes.Space * 0.6;
        double left = bar.Columns[first] - half,
            right = bar.Columns[after - 1] + half;
        var top = sheet.TopOver(left, right, lowest) - (0.5 * sizes.Space);
        var glyph = Glyph.TupletDigit(3);
        var box = MusicFont.BoxOf(glyph, 0, 0, sizes.Space);
        var middle = (left + right) / 2;
        sheet.Add(
            new Sign(InkKind.Tuplet, glyph, middle - ((box.Left + box.Right) / 2), top - box.Bottom, sizes.Space)
        );
        if (BeamShows(bar.Written.Moments.AsSpan(), first, after))
            return;
        var y = top - (box.Height / 2);
        var gap = (box.Width / 2) + (0.4 * sizes.Space);
        if (right - left < 2 * gap)
            return;
        sheet.Add(
            new Rules(
                InkKind.Tuplet,
                [
                    new(left, y, middle - gap, y),
                    new(middle + gap, y, right, y),
                    new(left, y, left, y + half),
                    new(right, y, right, y + half),
                ],
                sizes.ThinBarLine
            )
        );
    }

    // A beam says what belongs together where it holds these notes and no others.
    private static bool BeamShows(ReadOnlySpan<WrittenMoment> moments, int first, int after)
    {
        var beam = moments[first].Beam;
        foreach (var moment in moments[first..after])
        {
            if (moment.Beam < 0 || moment.Beam != beam)
                return false;
        }
        return !(first > 0 && moments[first - 1].Beam == beam)
            && !(after < moments.Length && moments[after].Beam == beam);
    }
}
