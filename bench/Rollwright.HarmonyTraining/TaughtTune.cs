using System.Collections.Immutable;
using Rollwright.Arranging.Chording;
using Rollwright.Music.Tunes;

namespace Rollwright.HarmonyTraining;

/// <summary>A tune laid out in beats, with the triads that people gave it.</summary>
/// <param name="Tune">The tune, its chords included.</param>
/// <param name="Beats">Its beats.</param>
/// <param name="Known">The triad of each beat; -1 before the first symbol and under diminished and augmented chords.</param>
internal sealed record TaughtTune(Tune Tune, ImmutableArray<Beat> Beats, int[] Known)
{
    public static TaughtTune Of(Tune tune)
    {
        var tonic = tune.Key.Tonic.PitchClass;
        var known = ChordAgreement.ByBeat(tune).Select(chord => chord is { } given ? Triad.Of(given, tonic) ?? -1 : -1);
        return new(tune, BeatLine.Of(tune).Beats, [.. known]);
    }
}
