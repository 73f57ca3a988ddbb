namespace Rollwright.Listening.Beside.Following;

/// <summary>
/// A curve of second degree by weighted least squares, with a price on its bend: few points give a line, many may bend it.
/// </summary>
internal sealed class CurveFit
{
    // As much as one point at distance 1 says about the bend.
    private const double BendPrice = 1;

    private readonly double[] moments = new double[5];
    private readonly double[] values = new double[3];

    public void Add(double x, double y, double weight)
    {
        for (var k = 0; k < moments.Length; k++)
            moments[k] += weight * Math.Pow(x, k);
        for (var k = 0; k < values.Length; k++)
            values[k] += weight * Math.Pow(x, k) * y;
    }

    /// <returns>Value and slope at x = 0; null where the points do not tell them.</returns>
    public (double Value, double Slope)? Solve()
    {
        var (m0, m1, m2, m3, m4) = (moments[0], moments[1], moments[2], moments[3], moments[4] + BendPrice);
        // The bend is eliminated, then two equations are left.
        var (a, b, c) = (m0 - (m2 * m2 / m4), m1 - (m2 * m3 / m4), m2 - (m3 * m3 / m4));
        var (p, q) = (values[0] - (m2 * values[2] / m4), values[1] - (m3 * values[2] / m4));
        var spread = (a * c) - (b * b);
        return spread <= 1e-9 * m0 * m0 ? null : (((p * c) - (q * b)) / spread, ((a * q) - (b * p)) / spread);
    }
}
