using Rollwright.Audio;

namespace Rollwright.Listening.Takes;

/// <summary>One channel of several: the mean of those that carry sound, or the louder where they cancel each other.</summary>
internal static class OneSide
{
    /// <summary>A channel weaker than this beside the loudest carries nothing but noise (assumption: -40 dB).</summary>
    private const double Dead = 0.01;

    public static float[] Of(Samples sound)
    {
        var channels = Enumerable.Range(0, sound.Channels).Select(sound.Channel).ToList();
        foreach (var channel in channels)
            for (var i = 0; i < channel.Length; i++)
                if (!float.IsFinite(channel[i]))
                    channel[i] = 0;
        var loudest = channels.MaxBy(Level)!;
        var live = channels.Where(channel => Level(channel) > Dead * Level(loudest)).ToList();
        if (live.Count < 2)
            return loudest;
        var mean = new float[loudest.Length];
        foreach (var channel in live)
            for (var i = 0; i < mean.Length; i++)
                mean[i] += channel[i] / live.Count;
        // Sides of opposite phase take each other away: then one of them says more than their mean.
        return Level(mean) < 0.5 * Level(loudest) ? loudest : mean;
    }

    private static double Level(float[] channel)
    {
        var sum = 0.0;
        foreach (var value in channel)
            sum += (double)value * value;
        return Math.Sqrt(sum / Math.Max(1, channel.Length));
    }
}
