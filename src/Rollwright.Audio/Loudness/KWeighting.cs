namespace Rollwright.Audio.Loudness;

/// <summary>
/// The K-weighting of ITU-R BS.1770-4, annex 1: a shelf that stands for the head, then a high-pass that stands for the ear.
/// The standard gives the coefficients at 48 kHz; at other rates the same analogue filters are transformed anew (bilinear,
/// with the pre-warped centre), from the corner, gain and quality that give the standard's own numbers at 48 kHz.
/// </summary>
internal sealed class KWeighting
{
    private readonly Section head;
    private readonly Section ear;

    /// <param name="rate">Frames a second.</param>
    public KWeighting(int rate)
    {
        head = Head(rate);
        ear = Ear(rate);
    }

    public double Weigh(double value) => ear.Next(head.Next(value));

    internal static Section Head(int rate)
    {
        var k = Math.Tan(Math.PI * 1_681.974450955533 / rate);
        const double q = 0.7071752369554196;
        var high = Math.Pow(10, 3.999843853973347 / 20);
        var band = Math.Pow(high, 0.4996667741545416);
        var a0 = 1 + (k / q) + (k * k);
        return new(
            (high + (band * k / q) + (k * k)) / a0,
            2 * ((k * k) - high) / a0,
            (high - (band * k / q) + (k * k)) / a0,
            2 * ((k * k) - 1) / a0,
            (1 - (k / q) + (k * k)) / a0
        );
    }

    internal static Section Ear(int rate)
    {
        var k = Math.Tan(Math.PI * 38.13547087602444 / rate);
        const double q = 0.5003270373238773;
        var a0 = 1 + (k / q) + (k * k);
        return new(1, -2, 1, 2 * ((k * k) - 1) / a0, (1 - (k / q) + (k * k)) / a0);
    }

    /// <summary>A filter of second order: y = b₀x + b₁x₁ + b₂x₂ − a₁y₁ − a₂y₂, in transposed form.</summary>
    internal sealed class Section(double b0, double b1, double b2, double a1, double a2)
    {
        private double first;
        private double second;

        public double[] Coefficients => [b0, b1, b2, a1, a2];

        public double Next(double x)
        {
            var y = (b0 * x) + first;
            first = (b1 * x) - (a1 * y) + second;
            second = (b2 * x) - (a2 * y);
            return y;
        }
    }
}
