using Rollwright.Audio.Loudness;

namespace Rollwright.Sound.Mixing;

/// <summary>Brings a sound to its level and ends it without a click.</summary>
internal static class Level
{
    /// <summary>dB below full scale that the true peak has: codecs that lose a little may overshoot by half a decibel.</summary>
    private const double Ceiling = -1.5;

    /// <summary>Share of the ringing after the end over which it fades to nothing.</summary>
    private const double FadeShare = 0.4;

    /// <summary>Factor that brings the true peak to the ceiling; 1 for silence.</summary>
    public static float GainFor(ReadOnlySpan<float> values, int channels)
    {
        var peak = TruePeak.Of(values, channels);
        return peak < 1e-6f ? 1 : (float)(Math.Pow(10, Ceiling / 20) / peak);
    }

    public static void Apply(Span<float> values, float gain)
    {
        for (var i = 0; i < values.Length; i++)
            values[i] *= gain;
    }

    /// <summary>Fades the last frames to nothing.</summary>
    public static void FadeOut(Span<float> values, SynthOptions options)
    {
        var channels = options.Stereo ? 2 : 1;
        var frames = (int)(options.SampleRate * Math.Max(0.05, options.Tail * FadeShare));
        var length = Math.Min(frames * channels, values.Length);
        for (var i = 0; i < length; i++)
            values[values.Length - length + i] *= 1 - ((float)(i / channels + 1) / (length / channels));
    }
}
