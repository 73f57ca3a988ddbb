using Rollwright.Listening.Spectra;

namespace Rollwright.Listening.Onsets;

/// <summary>
/// Where something new begins: the summed rise of the compressed spectrum (spectral flux on log magnitudes, Bello and
/// others 2005), where it stands above the median around it and is the greatest nearby. A recording is looked at piece by
/// piece; what counts as strong is told by the whole.
/// </summary>
internal sealed class OnsetFinder
{
    // Of what the pieces offer, the whole keeps less: a piece does not know yet what is strong in the whole.
    private const double Lenient = 0.5;

    private readonly List<double> flux = [];
    private float peak;

    /// <summary>What may be an onset, in seconds of the piece, by time.</summary>
    public List<Onset> Offer(Spectrogram spectra)
    {
        var here = Flux(spectra);
        flux.AddRange(here);
        var least = Lenient * Least(here);
        var near = (int)Math.Round(ListeningTable.Of("onset-apart") / spectra.Hop / 2);
        var half = (int)Math.Round(ListeningTable.Of("onset-median") / spectra.Hop);
        var found = new List<Onset>();
        for (var i = 0; i < here.Length && least > 0; i++)
        {
            var (from, to) = (Math.Max(0, i - near), Math.Min(here.Length - 1, i + near));
            var isPeak = true;
            for (var j = from; j <= to && isPeak; j++)
                isPeak = here[j] < here[i] || (here[j] == here[i] && j >= i);
            if (!isPeak)
                continue;
            var around = here[Math.Max(0, i - half)..Math.Min(here.Length, i + half + 1)];
            var above = here[i] - Quantile(around, 0.5);
            if (above >= least)
                found.Add(new(Math.Max(0, (i * spectra.Hop) + ListeningTable.Of("onset-late")), here[i], above));
        }
        return found;
    }

    /// <summary>Which of the onsets offered stand, once all pieces were looked at.</summary>
    public IEnumerable<T> Standing<T>(IEnumerable<T> offered, Func<T, Onset> onset)
    {
        var least = Least([.. flux]);
        var apart = ListeningTable.Of("onset-apart");
        var last = double.NegativeInfinity;
        foreach (var one in offered)
        {
            var (time, _, above) = onset(one);
            if (above < least || time - last < apart)
                continue;
            last = time;
            yield return one;
        }
    }

    private static double Least(double[] flux) => ListeningTable.Of("onset-rise") * Quantile(flux, 0.95);

    private double[] Flux(Spectrogram spectra)
    {
        for (var i = 0; i < spectra.Count; i++)
            foreach (var value in spectra[i])
                peak = Math.Max(peak, value);
        var flux = new double[spectra.Count];
        if (peak <= 1e-5)
            return flux;
        var scale = 1 / (peak * (float)ListeningTable.Of("compress"));
        var logs = new Queue<float[]>();
        for (var i = 0; i < spectra.Count; i++)
        {
            var now = new float[spectra.Bins];
            for (var bin = 0; bin < now.Length; bin++)
                now[bin] = MathF.Log(1 + (scale * spectra[i][bin]));
            if (logs.Count == 2)
            {
                var old = logs.Dequeue();
                for (var bin = 1; bin < now.Length - 1; bin++)
                    flux[i] += Math.Max(0, now[bin] - Math.Max(old[bin], Math.Max(old[bin - 1], old[bin + 1])));
            }
            logs.Enqueue(now);
        }
        return flux;
    }

    private static double Quantile(double[] values, double part)
    {
        if (values.Length == 0)
            return 0;
        var sorted = (double[])values.Clone();
        Array.Sort(sorted);
        return sorted[(int)(part * (sorted.Length - 1))];
    }
}
