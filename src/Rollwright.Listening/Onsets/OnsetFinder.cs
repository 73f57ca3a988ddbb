using Rollwright.Listening.Spectra;

namespace Rollwright.Listening.Onsets;

/// <summary>
/// Where something new begins: the summed rise of the compressed spectrum (spectral flux on log magnitudes, Bello and
/// others 2005), where it stands above the median around it and is the greatest nearby.
/// </summary>
internal static class OnsetFinder
{
    /// <returns>By time.</returns>
    public static List<Onset> Find(Spectrogram spectra)
    {
        var flux = Flux(spectra);
        var strong = Quantile(flux, 0.95);
        var found = new List<Onset>();
        if (strong <= 0)
            return found;
        var near = (int)Math.Round(ListeningTable.Of("onset-apart") / spectra.Hop / 2);
        var apart = (int)Math.Round(ListeningTable.Of("onset-apart") / spectra.Hop);
        var half = (int)Math.Round(ListeningTable.Of("onset-median") / spectra.Hop);
        var least = ListeningTable.Of("onset-rise") * strong;
        var last = -apart;
        for (var i = 0; i < flux.Length; i++)
        {
            var (from, to) = (Math.Max(0, i - near), Math.Min(flux.Length - 1, i + near));
            var isPeak = true;
            for (var j = from; j <= to && isPeak; j++)
                isPeak = flux[j] < flux[i] || (flux[j] == flux[i] && j >= i);
            if (!isPeak || i - last < apart)
                continue;
            var around = flux[Math.Max(0, i - half)..Math.Min(flux.Length, i + half + 1)];
            if (flux[i] < Quantile(around, 0.5) + least)
                continue;
            found.Add(new(Math.Max(0, (i * spectra.Hop) + ListeningTable.Of("onset-late")), flux[i]));
            last = i;
        }
        return found;
    }

    private static double[] Flux(Spectrogram spectra)
    {
        var peak = 0f;
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
