using System.Runtime.CompilerServices;

namespace Rollwright.Audio.Loudness;

/// <summary>
/// How loud a whole sound is, in LUFS, by ITU-R BS.1770-4, annex 1: mean squares of K-weighted blocks of 400 ms that
/// overlap by three quarters; blocks below −70 LUFS do not count, and then none that is 10 LU below the mean of the rest.
/// Every channel counts the same: one or two, left and right.
/// </summary>
public static class IntegratedLoudness
{
    private const double Silence = -70;
    private const double BelowMean = -10;

    /// <returns>LUFS; negative infinity where no block is above the gate.</returns>
    public static double Of(Samples samples)
    {
        ArgumentNullException.ThrowIfNull(samples);
        var hop = samples.Rate / 10;
        var powers = new double[samples.Frames / hop];
        for (var channel = 0; channel < samples.Channels; channel++)
            AddPowers(samples, channel, hop, powers);
        var blocks = new List<double>();
        for (var i = 0; i + 4 <= powers.Length; i++)
            blocks.Add((powers[i] + powers[i + 1] + powers[i + 2] + powers[i + 3]) / (4.0 * hop));
        var heard = blocks.Where(power => Lufs(power) > Silence).ToList();
        if (heard.Count == 0)
            return double.NegativeInfinity;
        var gate = Lufs(heard.Average()) + BelowMean;
        return Lufs(heard.Where(power => Lufs(power) > gate).Average());
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AddPowers(Samples samples, int channel, int hop, double[] powers)
    {
        var weighting = new KWeighting(samples.Rate);
        var values = samples.Interleaved;
        for (var i = 0; i < powers.Length; i++)
        {
            var sum = 0.0;
            for (var frame = i * hop; frame < (i + 1) * hop; frame++)
            {
                var weighted = weighting.Weigh(values[(frame * samples.Channels) + channel]);
                sum += weighted * weighted;
            }
            powers[i] += sum;
        }
    }

    private static double Lufs(double power) => -0.691 + (10 * Math.Log10(power));
}
