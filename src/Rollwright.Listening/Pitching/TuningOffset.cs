using Rollwright.Listening.Spectra;

namespace Rollwright.Listening.Pitching;

/// <summary>How far the instrument is from a' = 440 Hz: the commonest deviation of strong partials from equal temperament.</summary>
internal sealed class TuningOffset
{
    private const int Width = 4;
    private const int Most = 3;
    private const double Weakest = 0.25;

    private readonly double[] votes = new double[100];

    /// <summary>The offsets that come into question, the likeliest first: who plays along may be tuned otherwise.</summary>
    /// <returns>Cents, from -50 to 50; at least one.</returns>
    public List<double> Likely()
    {
        var sums = Enumerable.Range(0, 100).Select(cents => Around(votes, cents).Sum(item => item.Votes)).ToArray();
        var best = sums.Max();
        var likely = new List<double>();
        foreach (var cents in Enumerable.Range(0, 100).OrderByDescending(cents => sums[cents]))
        {
            if (likely.Count == Most || sums[cents] < Weakest * best)
                break;
            var isPeak = Enumerable
                .Range(-Width, (2 * Width) + 1)
                .All(away => sums[(cents + away + 100) % 100] <= sums[cents]);
            if (!isPeak)
                continue;
            var offset = Exact(votes, cents);
            if (likely.TrueForAll(other => Math.Abs(other - offset) > Width))
                likely.Add(offset);
        }
        return likely.Count == 0 ? [0] : likely;
    }

    private static double Exact(double[] votes, int best)
    {
        var near = Around(votes, best).ToList();
        var sum = near.Sum(item => item.Votes);
        var offset = sum <= 0 ? 0 : best + 0.5 + (near.Sum(item => item.Away * item.Votes) / sum);
        return offset >= 50 ? offset - 100 : offset;
    }

    /// <summary>How much of the partials is in tune with the likeliest offset: 0.09 where they lie anywhere, 1 for all.</summary>
    public double Sharpness =>
        votes.Sum() is var all and > 0
            ? Enumerable.Range(0, 100).Max(cents => Around(votes, cents).Sum(item => item.Votes)) / all
            : 0;

    /// <summary>Takes a stretch of the sound into account.</summary>
    public void Add(float[] sound, int rate)
    {
        // A long window tells semitones apart down to the fourth string's octave.
        var spectra = Spectrogram.Of(sound, rate, 0.19, 2, 1_300);
        for (var frame = 0; frame < spectra.Count; frame++)
        {
            var one = spectra[frame];
            var peak = one.Max();
            if (peak <= 1e-5)
                continue;
            for (var bin = Math.Max(2, (int)(190 / spectra.BinWidth)); bin < one.Length - 1; bin++)
            {
                var (left, here, right) = (one[bin - 1], one[bin], one[bin + 1]);
                if (here < 0.1f * peak || here < left || here <= right)
                    continue;
                var (a, b, c) = (Math.Log(left + 1e-9), Math.Log(here), Math.Log(right + 1e-9));
                var exact = bin + (0.5 * (a - c) / (a - (2 * b) + c));
                var key = 69 + (12 * Math.Log2(exact * spectra.BinWidth / 440));
                var cents = (int)Math.Floor((key - Math.Floor(key)) * 100);
                votes[Math.Clamp(cents, 0, 99)] += Math.Sqrt(here);
            }
        }
    }

    private static IEnumerable<(int Away, double Votes)> Around(double[] votes, int cents) =>
        Enumerable.Range(-Width, (2 * Width) + 1).Select(away => (away, votes[(cents + away + 100) % 100]));
}
