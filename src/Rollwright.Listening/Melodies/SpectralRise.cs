using NWaves.Transforms;

namespace Rollwright.Listening.Melodies;

/// <summary>
/// How much a spectrum rises over the one some frames before, each bin against the greatest of its neighbours there, so
/// that vibrato is no rise (SuperFlux, Böck and Widmer 2013).
/// </summary>
internal sealed class SpectralRise
{
    private const int FramesBack = 4;
    private const double WindowSeconds = 0.023;
    private const float Scale = 1_000;

    private readonly RealFft fft;
    private readonly float[] hann;
    private readonly float[] under;
    private readonly float[] re;
    private readonly float[] im;
    private readonly Queue<float[]> earlier = new();
    private readonly int bins;

    public SpectralRise(int rate)
    {
        Size = 1 << (int)Math.Round(Math.Log2(WindowSeconds * rate));
        bins = Math.Min(Size / 2, (int)(7_000.0 * Size / rate));
        fft = new(Size);
        (under, re, im) = (new float[Size], new float[Size], new float[Size]);
        hann =
        [
            .. Enumerable
                .Range(0, Size)
                .Select(i => (float)((0.5 - (0.5 * Math.Cos(2 * Math.PI * i / Size))) * 4 / Size)),
        ];
    }

    public int Size { get; }

    public float Next(ReadOnlySpan<float> sound)
    {
        for (var i = 0; i < Size; i++)
            under[i] = sound[i] * hann[i];
        fft.Direct(under, re, im);
        var now = new float[bins];
        for (var bin = 0; bin < bins; bin++)
            now[bin] = MathF.Log(1 + (Scale * MathF.Sqrt((re[bin] * re[bin]) + (im[bin] * im[bin]))));
        var flux = 0f;
        if (earlier.Count == FramesBack)
        {
            var old = earlier.Dequeue();
            for (var bin = 1; bin < bins - 1; bin++)
                flux += Math.Max(0, now[bin] - Math.Max(old[bin], Math.Max(old[bin - 1], old[bin + 1])));
        }
        earlier.Enqueue(now);
        return flux / bins;
    }
}
