using System.Collections.Immutable;
using Rollwright.Arranging.Chording;
using Rollwright.Music.Tunes;

namespace Rollwright.HarmonyTraining;

/// <summary>A tune with people's chords, laid out in beats.</summary>
internal sealed record TaughtTune(Tune Tune, ImmutableArray<Beat> Beats, int[] Known)
{
    public static TaughtTune Of(Tune tune)
    {
        var tonic = tune.Key.Tonic.PitchClass;
        var known = ChordAgreement.ByBeat(tune).Select(chord => chord is { } given ? Triad.Of(given, tonic) ?? -1 : -1);
        return new(tune, BeatLine.Of(tune), [.. known]);
    }

    public Tune Bare => Tune with { Bars = [.. Tune.Bars.Select(bar => bar with { Chords = [] })] };
}
