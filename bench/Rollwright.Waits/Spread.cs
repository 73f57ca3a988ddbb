using System.Diagnostics;

namespace Rollwright.Waits;

/// <summary>Many times of one thing, milliseconds.</summary>
internal sealed class Spread(string what)
{
    private readonly List<double> times = [];

    /// <summary>Does it, and notes how long it took.</summary>
    public T Take<T>(Func<T> work)
    {
        var started = Stopwatch.GetTimestamp();
        var done = work();
        times.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
        return done;
    }

    public override string ToString()
    {
        times.Sort();
        return $"| {what} | {times.Count} | {At(0.5):0.0} ms | {At(0.95):0.0} ms | {times[^1]:0.0} ms |";
    }

    private double At(double share) => times[(int)(share * (times.Count - 1))];
}
