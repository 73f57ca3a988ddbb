using NWaves.Transforms;

namespace Rollwright.Listening.Beside.Evidence;

/// <summary>
/// Looks into a recording at single times. Nothing but the sound itself is held, so that memory does not grow with what is asked.
/// </summary>
internal sealed class Sounding
{
    // The part of its height at which a rise is said to begin: low enough for a soft attack, above the noise before it.
    private const double Part = 0.33;

    private readonly float[] sound;
    private readonly Window tone;
    private readonly Window attack;

    public Sounding(float[] sound, int rate)
    {
        (this.sound, Rate) = (sound, rate);
        (tone, attack) = (new(TakeTable.Of("tone-window"), rate), new(TakeTable.Of("attack-window"), rate));
        Bins = Math.Min((tone.Size / 2) + 1, (int)(TakeTable.Of("top") * tone.Size / rate));
    }

    public int Rate { get; }

    public int Bins { get; }

    public double BinWidth => (double)Rate / tone.Size;

    public double Duration => (double)sound.Length / Rate;

    /// <summary>What is louder just after a time than just before it, by bin, compressed so that weak partials count.</summary>
    /// <param name="onset">Seconds: where an attack begins.</param>
    /// <param name="next">Seconds: where the next one begins.</param>
    public float[] Rise(double onset, double next)
    {
        var (before, settle, step) = (TakeTable.Of("before"), TakeTable.Of("settle"), tone.Seconds / 4);
        var last = Math.Min(onset + TakeTable.Of("listen"), next - step);
        var (old, now, count) = (new float[Bins], new float[Bins], 0);
        Add(old, onset - before);
        for (var at = onset + settle; count == 0 || at <= last; at += step, count++)
            Add(now, at);
        var power = (float)TakeTable.Of("power");
        for (var bin = 0; bin < Bins; bin++)
            now[bin] = MathF.Pow(Math.Max(0, (now[bin] / count) - old[bin]), power);
        return now;
    }

    /// <summary>
    /// The strongest attack between two times: where the rise of the spectrum has reached a third of its height on the way to
    /// its peak, which is nearer to the touch of the finger than the peak itself.
    /// </summary>
    /// <returns>Seconds, and the height of the rise, to be compared with others of the same take; null where none is.</returns>
    public (double Onset, double Height)? Attack(double from, double to)
    {
        var hop = Math.Max(1, attack.Size / 16) / (double)Rate;
        var lag = attack.Size / 2.0 / Rate;
        var count = Math.Max(2, (int)Math.Ceiling((to - from) / hop) + 1);
        // That height may lie before the stretch.
        var lead = (int)Math.Ceiling(attack.Seconds / hop);
        var flux = new double[count + lead];
        var steps = (int)Math.Round(lag / hop);
        var logs = new Queue<float[]>();
        for (var i = -steps; i < flux.Length; i++)
        {
            var now = attack.Of(sound, from + ((i - lead) * hop) + (lag / 2));
            for (var bin = 0; bin < now.Length; bin++)
                now[bin] = MathF.Log(1 + (1000 * now[bin]));
            logs.Enqueue(now);
            if (i < 0)
                continue;
            var old = logs.Dequeue();
            for (var bin = 0; bin < now.Length; bin++)
                flux[i] += Math.Max(0, now[bin] - old[bin]);
        }
        var peak = -1;
        for (var i = lead; i < flux.Length - 1; i++)
            if (flux[i] > flux[i - 1] && flux[i] >= flux[i + 1] && (peak < 0 || flux[i] > flux[peak]))
                peak = i;
        // What only dies away, or is still to come, has no peak here.
        if (peak < 0)
            return null;
        var begin = peak;
        while (begin > 0 && flux[begin - 1] >= Part * flux[peak])
            begin--;
        var part =
            begin > 0 && flux[begin] > flux[begin - 1]
                ? (flux[begin] - (Part * flux[peak])) / (flux[begin] - flux[begin - 1])
                : 0;
        return (from + ((begin - part - lead) * hop), flux[peak] / attack.Size);
    }

    private void Add(float[] sum, double at)
    {
        var one = tone.Of(sound, at);
        for (var bin = 0; bin < sum.Length; bin++)
            sum[bin] += one[bin];
    }

    // One window over the sound and the magnitudes under it.
    private sealed class Window
    {
        private readonly RealFft fft;
        private readonly float[] hann;
        private readonly float[] under;
        private readonly float[] re;
        private readonly float[] im;
        private readonly int rate;

        public Window(double seconds, int rate)
        {
            this.rate = rate;
            Size = 1 << (int)Math.Round(Math.Log2(seconds * rate));
            fft = new(Size);
            hann = new float[Size];
            for (var i = 0; i < Size; i++)
                hann[i] = (float)((0.5 - (0.5 * Math.Cos(2 * Math.PI * i / Size))) * 4 / Size);
            (under, re, im) = (new float[Size], new float[Size], new float[Size]);
        }

        public int Size { get; }

        public double Seconds => (double)Size / rate;

        /// <summary>Magnitudes around a time, 0 outside the sound.</summary>
        public float[] Of(float[] sound, double middle)
        {
            var start = (long)Math.Round(middle * rate) - (Size / 2);
            for (var i = 0; i < Size; i++)
            {
                var at = start + i;
                under[i] = at < 0 || at >= sound.Length ? 0 : sound[at] * hann[i];
            }
            fft.Direct(under, re, im);
            var magnitudes = new float[(Size / 2) + 1];
            for (var bin = 0; bin < magnitudes.Length; bin++)
                magnitudes[bin] = MathF.Sqrt((re[bin] * re[bin]) + (im[bin] * im[bin]));
            return magnitudes;
        }
    }
}
