using System.Numerics;

namespace Rollwright.SoundPictures;

/// <summary>Levels of a sound over time and frequency, by windowed Fourier transforms.</summary>
internal static class Spectrogram
{
    private const int Size = 1_024;

    /// <summary>dB below full scale of each bin up to half the rate, at a time.</summary>
    /// <param name="sound">One channel.</param>
    /// <param name="middle">Frame that the window is centred on.</param>
    public static double[] At(ReadOnlySpan<float> sound, int middle)
    {
        var values = new Complex[Size];
        for (var i = 0; i < Size; i++)
        {
            var frame = middle - (Size / 2) + i;
            var window = 0.5 - (0.5 * Math.Cos(2 * Math.PI * i / Size));
            values[i] = frame >= 0 && frame < sound.Length ? sound[frame] * window : 0;
        }
        Transform(values);
        var levels = new double[Size / 2];
        for (var k = 0; k < levels.Length; k++)
            levels[k] = 20 * Math.Log10((4 * values[k].Magnitude / Size) + 1e-9);
        return levels;
    }

    /// <summary>Hz of a bin.</summary>
    public static double Hz(int bin, int rate) => (double)bin * rate / Size;

    private static void Transform(Span<Complex> a)
    {
        if (a.Length == 1)
            return;
        var half = a.Length / 2;
        var (even, odd) = (new Complex[half], new Complex[half]);
        for (var i = 0; i < half; i++)
            (even[i], odd[i]) = (a[2 * i], a[(2 * i) + 1]);
        Transform(even);
        Transform(odd);
        for (var k = 0; k < half; k++)
        {
            var turned = Complex.FromPolarCoordinates(1, -2 * Math.PI * k / a.Length) * odd[k];
            (a[k], a[k + half]) = (even[k] + turned, even[k] - turned);
        }
    }
}
