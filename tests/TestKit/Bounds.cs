using System.Diagnostics;

namespace Rollwright.TestKit;

/// <summary>What a reader may take for any file: two seconds of work, 256 MB.</summary>
public static class Bounds
{
    public static readonly TimeSpan MostTime = TimeSpan.FromSeconds(2);

    /// <summary>All that is allocated counts, which is more than what is held at once.</summary>
    public const long MostBytes = 256_000_000;

    /// <summary>Reads, and says what went beyond a bound; null where nothing did.</summary>
    public static string? Fault(Action read)
    {
        var bytes = GC.GetAllocatedBytesForCurrentThread();
        var started = Worked();
        read();
        var (time, taken) = (Worked() - started, GC.GetAllocatedBytesForCurrentThread() - bytes);
        return time > MostTime ? $"took {time.TotalSeconds:0.0} s"
            : taken > MostBytes ? $"took {taken / 1_000_000} MB"
            : null;
    }

    // The time that this thread worked, so that a busy computer does no harm; where the system does not tell it, the clock's.
    private static TimeSpan Worked() =>
        File.Exists("/proc/thread-self/schedstat")
            ? TimeSpan.FromTicks(long.Parse(File.ReadAllText("/proc/thread-self/schedstat").Split(' ')[0]) / 100)
            : Stopwatch.GetElapsedTime(0);
}
