using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Rollwright.Audio.Loudness;

/// <summary>
/// The peak of the curve that runs through the samples, which may lie between them: four times oversampled by the filter
/// that ITU-R BS.1770-4 gives in annex 2.
/// </summary>
public static class TruePeak
{
    private const int Taps = 12;
    private const int Stretch = 64;

    // Of the filter's four phases the third and fourth are the second and first turned round.
    private static readonly float[] Near =
    [
        0.0017089843750f,
        0.0109863281250f,
        -0.0196533203125f,
        0.0332031250000f,
        -0.0594482421875f,
        0.1373291015625f,
        0.9721679687500f,
        -0.1022949218750f,
        0.0476074218750f,
        -0.0266113281250f,
        0.0148925781250f,
        -0.0083007812500f,
    ];
    private static readonly float[] Between =
    [
        -0.0291748046875f,
        0.0292968750000f,
        -0.0517578125000f,
        0.0891113281250f,
        -0.1665039062500f,
        0.4650878906250f,
        0.7797851562500f,
        -0.2003173828125f,
        0.1015625000000f,
        -0.0582275390625f,
        0.0330810546875f,
        -0.0189208984375f,
    ];

    // However the samples stand, the curve goes no higher than this times the greatest of them.
    private static readonly float Bound = Between.Sum(Math.Abs);

    /// <summary>1 is full scale.</summary>
    public static float Of(Samples samples)
    {
        ArgumentNullException.ThrowIfNull(samples);
        return Of(samples.Interleaved, samples.Channels);
    }

    /// <param name="interleaved">Whole frames.</param>
    /// <param name="channels">At least 1.</param>
    public static float Of(ReadOnlySpan<float> interleaved, int channels)
    {
        var peak = Loudest(interleaved);
        var frames = interleaved.Length / channels;
        Span<float> line = stackalloc float[Stretch + Taps];
        for (var start = -Taps; start < frames; start += Stretch)
        {
            var (from, to) = (Math.Max(0, start), Math.Min(frames, start + line.Length));
            // Where nothing can exceed what was found, nothing is looked for: most of a sound.
            if (Loudest(interleaved[(from * channels)..(to * channels)]) * Bound <= peak)
                continue;
            for (var channel = 0; channel < channels; channel++)
            {
                line.Clear();
                for (var frame = from; frame < to; frame++)
                    line[frame - start] = interleaved[(frame * channels) + channel];
                peak = Math.Max(peak, PeakOf(line));
            }
        }
        return peak;
    }

    private static float Loudest(ReadOnlySpan<float> values)
    {
        var wide = MemoryMarshal.Cast<float, Vector256<float>>(values);
        var most = Vector256<float>.Zero;
        foreach (var eight in wide)
            most = Vector256.Max(most, Vector256.Abs(eight));
        var peak = 0f;
        for (var i = 0; i < Vector256<float>.Count; i++)
            peak = Math.Max(peak, most[i]);
        foreach (var value in values[(wide.Length * Vector256<float>.Count)..])
            peak = Math.Max(peak, Math.Abs(value));
        return peak;
    }

    private static float PeakOf(ReadOnlySpan<float> line)
    {
        var peak = 0f;
        for (var at = 0; at < Stretch; at++)
        {
            float first = 0,
                second = 0,
                third = 0,
                fourth = 0;
            for (var tap = 0; tap < Taps; tap++)
            {
                var value = line[at + tap];
                first += Near[tap] * value;
                second += Between[tap] * value;
                third += Between[Taps - 1 - tap] * value;
                fourth += Near[Taps - 1 - tap] * value;
            }
            peak = Math.Max(peak, Math.Max(Math.Abs(first), Math.Abs(second)));
            peak = Math.Max(peak, Math.Max(Math.Abs(third), Math.Abs(fourth)));
        }
        return peak;
    }
}
