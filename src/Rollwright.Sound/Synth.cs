using System.Collections.Immutable;
using Rollwright.Audio;
using Rollwright.Banjo.Breaks;
using Rollwright.Sound.Band;
using Rollwright.Sound.Mixing;

namespace Rollwright.Sound;

/// <summary>Sounds a break: who plays what when, the hands on the strings, the strings on the bodies, the level.</summary>
public static class Synth
{
    /// <summary>
    /// The mix of all parts. Time 0 is the start of what is sounded, or of the count before it. The same break, options
    /// and machine kind give the same samples.
    /// </summary>
    /// <exception cref="SoundException">
    /// An option is out of its range, a part is not known, the span is empty, or the sound would be too long.
    /// </exception>
    public static Samples Render(Break played, SynthOptions? options = null)
    {
        options ??= new();
        var ensemble = Ensemble.Of(played, options);
        var mix = Stage.Silence(ensemble, options);
        foreach (var part in ensemble.Parts)
            Stage.Add(part, options, mix);
        Level.FadeOut(mix, options);
        Level.Apply(mix, Level.GainFor(mix, options.Stereo ? 2 : 1));
        return new(options.SampleRate, options.Stereo ? 2 : 1, mix);
    }

    /// <summary>Each part by itself, at the level it has in the mix: their sum is the mix.</summary>
    /// <inheritdoc cref="Render"/>
    public static ImmutableArray<Stem> Stems(Break played, SynthOptions? options = null)
    {
        options ??= new();
        var ensemble = Ensemble.Of(played, options);
        var mix = Stage.Silence(ensemble, options);
        var alone = new List<(string Name, float[] Values)>();
        foreach (var part in ensemble.Parts)
        {
            var values = Stage.Silence(ensemble, options);
            Stage.Add(part, options, values);
            Level.FadeOut(values, options);
            for (var i = 0; i < mix.Length; i++)
                mix[i] += values[i];
            alone.Add((part.Name, values));
        }
        var gain = Level.GainFor(mix, options.Stereo ? 2 : 1);
        return
        [
            .. alone.Select(part =>
            {
                Level.Apply(part.Values, gain);
                return new Stem(part.Name, new(options.SampleRate, options.Stereo ? 2 : 1, part.Values));
            }),
        ];
    }
}

/// <summary>A part by itself.</summary>
/// <param name="Name">"banjo", "bass" and so on.</param>
/// <param name="Sound">As long as the mix.</param>
public sealed record Stem(string Name, Samples Sound);
