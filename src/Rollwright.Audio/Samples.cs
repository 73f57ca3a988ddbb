namespace Rollwright.Audio;

/// <summary>Sampled sound: frames of one or more channels, interleaved, full scale from -1 to 1.</summary>
public sealed class Samples
{
    private readonly float[] interleaved;

    /// <param name="rate">Frames a second, 1,000 to 384,000.</param>
    /// <param name="channels">1 to 8.</param>
    /// <param name="interleaved">Whole frames; the array is kept, not copied, so it must not be written to afterwards.</param>
    /// <exception cref="ArgumentOutOfRangeException">A rate or a channel count out of range.</exception>
    /// <exception cref="ArgumentException">The last frame is not whole.</exception>
    public Samples(int rate, int channels, float[] interleaved)
    {
        ArgumentNullException.ThrowIfNull(interleaved);
        ArgumentOutOfRangeException.ThrowIfLessThan(rate, 1_000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(rate, 384_000);
        ArgumentOutOfRangeException.ThrowIfLessThan(channels, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(channels, 8);
        if (interleaved.Length % channels != 0)
            throw new ArgumentException("The last frame lacks a channel.", nameof(interleaved));
        Rate = rate;
        Channels = channels;
        this.interleaved = interleaved;
    }

    /// <summary>Frames a second.</summary>
    public int Rate { get; }

    public int Channels { get; }

    public int Frames => interleaved.Length / Channels;

    public TimeSpan Duration => TimeSpan.FromSeconds((double)Frames / Rate);

    /// <summary>All values, frame by frame.</summary>
    public ReadOnlySpan<float> Interleaved => interleaved;

    /// <summary>The greatest magnitude; 1 is full scale.</summary>
    public float Peak
    {
        get
        {
            var peak = 0f;
            foreach (var value in interleaved)
                peak = Math.Max(peak, Math.Abs(value));
            return peak;
        }
    }

    /// <summary>One channel alone, copied.</summary>
    public float[] Channel(int channel)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(channel);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(channel, Channels);
        var one = new float[Frames];
        for (var frame = 0; frame < one.Length; frame++)
            one[frame] = interleaved[(frame * Channels) + channel];
        return one;
    }
}
