using System.Runtime.CompilerServices;
using Rollwright.Sound.Band;
using Rollwright.Sound.Instruments;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Mixing;

/// <summary>Where the parts sound together.</summary>
internal static class Stage
{
    /// <summary>Room for the whole, interleaved.</summary>
    public static float[] Silence(Ensemble ensemble, SynthOptions options) =>
        new float[
            (int)Math.Ceiling((ensemble.Timeline.Seconds + options.Tail) * options.SampleRate)
                * (options.Stereo ? 2 : 1)
        ];

    /// <summary>Adds what a part sounds, at its level and place.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Add(Part part, SynthOptions options, float[] values)
    {
        var rate = options.SampleRate;
        var instrument = new Instrument(part.Voice, part.Open, rate, options.Seed);
        Span<float> left = stackalloc float[Waveguide.Block];
        Span<float> right = stackalloc float[Waveguide.Block];
        var frames = values.Length / (options.Stereo ? 2 : 1);
        var gain = (float)Math.Pow(10, part.Level / 20);
        var (toLeft, toRight) = (gain * Side(-part.Voice.Pan), gain * Side(part.Voice.Pan));
        var next = 0;
        for (var frame = 0; frame < frames; )
        {
            while (next < part.Acts.Length && FrameOf(part.Acts[next].Seconds, rate) <= frame)
                instrument.Do(part.Acts[next++]);
            var until = next < part.Acts.Length ? Math.Min(frames, FrameOf(part.Acts[next].Seconds, rate)) : frames;
            var count = (int)Math.Min(Waveguide.Block, until - frame);
            instrument.Sound(left[..count], right[..count]);
            if (options.Stereo)
            {
                for (var k = 0; k < count; k++)
                {
                    values[(frame + k) * 2] += toLeft * left[k];
                    values[((frame + k) * 2) + 1] += toRight * right[k];
                }
            }
            else
            {
                for (var k = 0; k < count; k++)
                    values[frame + k] += gain * (left[k] + right[k]) / 2;
            }
            frame += count;
        }
    }

    private static long FrameOf(double seconds, int rate) => (long)Math.Round(seconds * rate);

    // Constant power, 1 in the middle.
    private static float Side(double towards) => (float)(Math.Sqrt(2) * Math.Sin(Math.PI / 4 * (1 + towards)));
}
