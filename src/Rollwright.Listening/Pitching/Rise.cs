using Rollwright.Listening.Onsets;
using Rollwright.Listening.Spectra;

namespace Rollwright.Listening.Pitching;

/// <summary>What an onset brings.</summary>
/// <param name="Onset">When, in seconds of the recording, and how strong.</param>
/// <param name="Spectrum">By bin, what is louder after the onset than before, taken to a power so that weak upper partials count.</param>
internal sealed record Rise(Onset Onset, float[] Spectrum)
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
            var rise = At(spectra, onsets[i].Time, i + 1 < onsets.Count ? onsets[i + 1].Time : double.MaxValue);
            if (rise.Sum() > Silence)
                yield return new(onsets[i] with { Time = time }, rise);
        }
    }

    private static float[] At(Spectrogram spectra, double onset, double next)
    {
        var settle = ListeningTable.Of("settle");
        var power = (float)ListeningTable.Of("power");
        var end = Math.Min(onset + ListeningTable.Of("listen"), Math.Max(onset + settle, next - settle));
        var after = spectra.Mean(onset + settle, end);
        var earlier = onset - ListeningTable.Of("before");
        var before = spectra.Mean(earlier, earlier);
        for (var bin = 0; bin < after.Length; bin++)
            after[bin] = MathF.Pow(Math.Max(0, after[bin] - before[bin]), power);
        return after;
    }
}
