using Rollwright.Arranging.Chording;
using Rollwright.Music.Tunes;

namespace Rollwright.HarmonyTraining;

/// <summary>Agreement over many tunes: of all beats, and the mean of the tunes; how often the chord changes.</summary>
internal sealed class Score
{
    private readonly List<double> tunes = [];
    private int same;
    private int all;
    private int changes;
    private int bars;

    public void Add(Tune reference, Tune made)
    {
        var (agree, count) = ChordAgreement.Count(reference, made);
        same += agree;
        all += count;
        if (count > 0)
            tunes.Add((double)agree / count);
        var chords = ChordAgreement.ByBeat(made).ToArray();
        changes += chords.Zip(chords.Skip(1)).Count(pair => pair.First is not null && pair.First != pair.Second);
        bars += made.Bars.Length;
    }

    public override string ToString() =>
        $"{(double)same / all:F4} of all beats, {tunes.Average():F4} by tune, {(double)changes / bars:F2} changes a bar";
}
