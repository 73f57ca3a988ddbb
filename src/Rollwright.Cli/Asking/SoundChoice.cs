using Rollwright.Audio.Opus;
using Rollwright.Audio.Wave;
using Rollwright.Sound;

namespace Rollwright.Cli.Asking;

/// <summary>How a break is to be sounded.</summary>
/// <param name="Options">What the synth is asked.</param>
/// <param name="Encoding">How a WAV file holds its numbers.</param>
/// <param name="Stems">Whether each part gets a file of its own instead of the mix.</param>
internal sealed record SoundChoice(SynthOptions Options, WavEncoding Encoding, bool Stems)
{
    /// <summary>The banjo alone, once through, at its own tempo.</summary>
    public static SoundChoice Plain(bool isOpus) =>
        new(
            new() { Stereo = true, SampleRate = isOpus ? OpusWriter.Rate : SynthOptions.UsualRate },
            WavEncoding.Pcm16,
            Stems: false
        );
}
