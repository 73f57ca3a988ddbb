using System.Collections.Immutable;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Signs;
using Rollwright.Engraving.Spacing;

namespace Rollwright.Engraving.Systems;

/// <summary>Gives the columns of a system their places.</summary>
internal static class SystemSetting
{
    public static SetSystem Set(
        ImmutableArray<MeasuredBar> bars,
        LinePlan line,
        int index,
        double left,
        double front,
        Sizes sizes
    )
    {
        var set = ImmutableArray.CreateBuilder<SetBar>(line.Count);
        var x = left + front;
        for (var i = line.First; i < line.After; i++)
        {
            var bar = bars[i];
            var columns = ImmutableArray.CreateBuilder<double>(bar.Springs.Length);
            var column = x + bar.Front;
            foreach (var spring in bar.Springs)
            {
                columns.Add(column);
                column += spring.At(line.Stretch);
            }
            var right = column + bar.Back;
            CentreLoneRest(bar, columns, x + BarLines.StartWidth(bar.Written.Bar.Marks, sizes), right);
            set.Add(new(bar, x, right, columns.MoveToImmutable()));
            x = right;
        }
        return new(index, left, x, set.MoveToImmutable(), bars[line.After - 1].Written.IsFinal);
    }

    // A bar of silence has its rest in the middle.
    private static void CentreLoneRest(
        MeasuredBar bar,
        ImmutableArray<double>.Builder columns,
        double left,
        double right
    )
    {
        if (bar.Written.Moments is [{ IsRest: true }])
            columns[0] = (left + right) / 2;
    }
}
