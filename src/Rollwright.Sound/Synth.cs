using Rollwright.Audio;
using Rollwright.Banjo.Breaks;
using Rollwright.Sound.Mixing;
using Rollwright.Sound.Playing;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound;

/// <summary>Sounds a break: the time of each stroke, the hands on the strings, the strings on the body, the level.</summary>
public static class Synth
{
    /// <summary>
    /// Time 0 is the start of the first bar sounded. The same break, options and machine kind give the same samples.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">An option is out of its range.</exception>
    /// <exception cref="ArgumentException">The sound would last more than half an hour.</exception>
    public static Samples Render(Break played, SynthOptions? options = null)
    {
        options ??= new();
        if (options.SampleRate is not (44_100 or 48_000))
            throw new ArgumentOutOfRangeException(nameof(options), "The sample rate is 44100 or 48000.");
        if (options.Tail is not (>= 0 and <= 10))
            throw new ArgumentOutOfRangeException(nameof(options), "The tail is 0 to 10 seconds.");
        var rate = options.SampleRate;
        var timeline = Timeline.Of(played, options);
        var acts = Hands.Play(timeline, rate, options.Seed);
        var channels = options.Stereo ? 2 : 1;
        var values = new float[(int)Math.Ceiling((timeline.Seconds + options.Tail) * rate) * channels];
        Sound(new(played.Setting, rate, options.Seed), acts, values, channels);
        Loudness.FadeOut(values, channels, rate / 20);
        Loudness.Level(values);
        return new(rate, channels, values);
    }

    private static void Sound(Instrument instrument, HandEvent[] acts, float[] values, int channels)
    {
        Span<float> left = stackalloc float[Waveguide.Block];
        Span<float> right = stackalloc float[Waveguide.Block];
        var frames = values.Length / channels;
        var next = 0;
        for (var frame = 0; frame < frames; )
        {
            while (next < acts.Length && acts[next].Frame <= frame)
                instrument.Do(acts[next++]);
            var until = next < acts.Length ? Math.Min(frames, acts[next].Frame) : frames;
            var count = (int)Math.Min(Waveguide.Block, until - frame);
            instrument.Sound(left[..count], right[..count]);
            for (var k = 0; k < count; k++)
            {
                if (channels == 1)
                {
                    values[frame + k] = (left[k] + right[k]) / 2;
                    continue;
                }
                values[(frame + k) * 2] = left[k];
                values[((frame + k) * 2) + 1] = right[k];
            }
            frame += count;
        }
    }
}
