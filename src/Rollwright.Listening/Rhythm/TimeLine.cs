namespace Rollwright.Listening.Rhythm;

/// <summary>Which moment of the recording is which place of the bars: straight lines through what was played near by.</summary>
internal sealed class TimeLine
{
    // So many beginnings on either side make one line: about a bar of a roll.
    private const int Near = 8;

    private readonly double[] at;
    private readonly double[] times;

    /// <param name="at">Half steps, ascending, swing added; at least two.</param>
    /// <param name="times">Seconds of each.</param>
    public TimeLine(double[] at, double[] times) => (this.at, this.times) = (at, times);

    /// <summary>Seconds of a half step over the whole: the middle of those around each beginning, so that a pause does not count.</summary>
    public double Half
    {
        get
        {
            var slopes = Enumerable
                .Range(0, at.Length)
                .Select(i => Line(Math.Max(0, i - Near), Math.Min(at.Length - 1, i + Near)).Slope)
                .Order()
                .ToArray();
            return slopes[slopes.Length / 2];
        }
    }

    /// <summary>Seconds from the beginning of the recording.</summary>
    public double TimeOf(double place)
    {
        var i = Array.BinarySearch(at, place);
        i = i < 0 ? Math.Min(~i, at.Length - 1) : i;
        var (slope, offset) = Line(Math.Max(0, i - Near), Math.Min(at.Length - 1, i + Near));
        return (slope * place) + offset;
    }

    private (double Slope, double Offset) Line(int first, int last)
    {
        var count = last - first + 1;
        var (x, y) = (0.0, 0.0);
        for (var i = first; i <= last; i++)
            (x, y) = (x + (at[i] / count), y + (times[i] / count));
        var (xx, xy) = (0.0, 0.0);
        for (var i = first; i <= last; i++)
            (xx, xy) = (xx + ((at[i] - x) * (at[i] - x)), xy + ((at[i] - x) * (times[i] - y)));
        var slope = xx > 0 ? xy / xx : 0;
        return (slope, y - (slope * x));
    }
}
