using NWaves.Transforms;

namespace Rollwright.Listening.Spectra;

/// <summary>Magnitude spectra of a sound under a Hann window, evenly spaced in time; only the bins below the top are kept.</summary>
internal sealed class Spectrogram
{
    private readonly float[][] frames;

    private Spectrogram(float[][] frames, int bins, double binWidth, double hop)
    {
        this.frames = frames;
        Bins = bins;
        BinWidth = binWidth;
        Hop = hop;
    }

    public int Count => frames.Length;

    public int Bins { get; }

    /// <summary>Hz from one bin to the next.</summary>
    public double BinWidth { get; }

    /// <summary>Seconds from one spectrum to the next; spectrum i has its middle at i times this.</summary>
    public double Hop { get; }

    public float[] this[int frame] => frames[Math.Clamp(frame, 0, frames.Length - 1)];

    public static Spectrogram Of(float[] sound, int rate, double window, int overlap, double top)
    {
        var size = 1 << (int)Math.Round(Math.Log2(window * rate));
        var hop = Math.Max(1, size / overlap);
        var bins = Math.Min((size / 2) + 1, (int)(top * size / rate));
        var fft = new RealFft(size);
        var hann = new float[size];
        for (var i = 0; i < size; i++)
            hann[i] = (float)((0.5 - (0.5 * Math.Cos(2 * Math.PI * i / size))) * 4 / size);
        var (under, re, im) = (new float[size], new float[size], new float[size]);
        var frames = new float[(sound.Length / hop) + 1][];
        for (var frame = 0; frame < frames.Length; frame++)
        {
            var start = (frame * hop) - (size / 2);
            for (var i = 0; i < size; i++)
            {
                var at = start + i;
                under[i] = at < 0 || at >= sound.Length ? 0 : sound[at] * hann[i];
            }
            fft.Direct(under, re, im);
            var one = frames[frame] = new float[bins];
            for (var bin = 0; bin < bins; bin++)
                one[bin] = MathF.Sqrt((re[bin] * re[bin]) + (im[bin] * im[bin]));
        }
        return new(frames, bins, (double)rate / size, (double)hop / rate);
    }

    /// <summary>Mean of the spectra from one time to another, at least one spectrum.</summary>
    public float[] Mean(double from, double to)
    {
        var (first, last) = ((int)Math.Round(from / Hop), (int)Math.Round(to / Hop));
        last = Math.Max(first, last);
        var mean = new float[Bins];
        for (var frame = first; frame <= last; frame++)
        for (var bin = 0; bin < Bins; bin++)
            mean[bin] += this[frame][bin];
        for (var bin = 0; bin < Bins; bin++)
            mean[bin] /= last - first + 1;
        return mean;
    }
}
