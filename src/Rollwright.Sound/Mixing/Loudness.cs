namespace Rollwright.Sound.Mixing;

/// <summary>Brings a sound to its level and ends it without a click.</summary>
internal static class Loudness
{
    /// <summary>−1.5 dB below full scale: players that resample or compress may overshoot by a decibel.</summary>
    private static readonly float Ceiling = (float)Math.Pow(10, -1.5 / 20);

    /// <summary>Scales so that the greatest magnitude is at the ceiling; silence stays silence.</summary>
    public static void Level(Span<float> values)
    {
        var peak = 0f;
        foreach (var value in values)
            peak = Math.Max(peak, Math.Abs(value));
        if (peak < 1e-6f)
            return;
        var gain = Ceiling / peak;
        for (var i = 0; i < values.Length; i++)
            values[i] *= gain;
    }

    /// <summary>Fades the last frames to nothing.</summary>
    public static void FadeOut(Span<float> values, int channels, int frames)
    {
        var length = Math.Min(frames * channels, values.Length);
        for (var i = 0; i < length; i++)
            values[values.Length - length + i] *= 1 - ((float)(i / channels + 1) / (length / channels));
    }
}
