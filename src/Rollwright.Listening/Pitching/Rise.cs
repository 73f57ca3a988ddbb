using Rollwright.Listening.Onsets;
using Rollwright.Listening.Spectra;

namespace Rollwright.Listening.Pitching;

/// <summary>What an onset brings.</summary>
/// <param name="Onset">When, in seconds of the recording, and how strong.</param>
/// <param name="Spectrum">By bin, what is louder after the onset than before, taken to a power so that weak upper partials count.</param>
/// <param name="Before">The spectrum before it; half precision, for hours of a take have thousands.</param>
/// <param name="Later">The spectrum when its attack is over.</param>
internal sealed record Rise(Onset Onset, float[] Spectrum, Half[] Before, Half[] Later)
{
    // Rises that sum to less are none.
    private const double Silence = 1e-6;

    /// <summary>The rises of a piece.</summary>
    /// <param name="spectra">Of the piece.</param>
    /// <param name="onsets">In seconds of the piece.</param>
    /// <param name="piece">Which of them belong to it.</param>
    public static IEnumerable<Rise> Of(Spectrogram spectra, List<Onset> onsets, Piece piece)
    {
        for (var i = 0; i < onsets.Count; i++)
        {
            var time = piece.Start + onsets[i].Time;
            if (time < piece.From || time >= piece.Until)
                continue;
            var next = i + 1 < onsets.Count ? onsets[i + 1].Time : double.MaxValue;
            var before = Earlier(spectra, onsets[i].Time);
            var rise = At(spectra, before, onsets[i].Time, next);
            if (rise.Sum() > Silence)
                yield return new(
                    onsets[i] with
                    {
                        Time = time,
                    },
                    rise,
                    [.. before.Select(value => (Half)value)],
                    [.. AfterAttack(spectra, onsets[i].Time, next).Select(value => (Half)value)]
                );
        }
    }

    private static float[] Earlier(Spectrogram spectra, double onset)
    {
        var earlier = onset - ListeningTable.Of("before");
        return spectra.Mean(earlier, earlier);
    }

    private static float[] AfterAttack(Spectrogram spectra, double onset, double next)
    {
        var (from, until) = (onset + ListeningTable.Of("fall-from"), onset + ListeningTable.Of("fall-until"));
        return spectra.Mean(from, Math.Max(from, Math.Min(until, next - 0.005)));
    }

    private static float[] At(Spectrogram spectra, float[] before, double onset, double next)
    {
        var settle = ListeningTable.Of("settle");
        var power = (float)ListeningTable.Of("power");
        var end = Math.Min(onset + ListeningTable.Of("listen"), Math.Max(onset + settle, next - settle));
        var after = spectra.Mean(onset + settle, end);
        for (var bin = 0; bin < after.Length; bin++)
            after[bin] = MathF.Pow(Math.Max(0, after[bin] - before[bin]), power);
        return after;
    }
}
