using System.Globalization;
using Rollwright.Audio;
using Rollwright.Audio.Loudness;
using Rollwright.Audio.Opus;
using Rollwright.Audio.Wave;
using Rollwright.Banjo.Breaks;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Commands;
using Rollwright.Sound;
using Rollwright.Sound.Band;

namespace Rollwright.Cli.Files;

/// <summary>Sounds a break into a file, or into a file for each part, and says how long and how loud it is.</summary>
internal static class SoundOutput
{
    public static bool IsSound(string ending) => ending is "wav" or "opus";

    /// <param name="path">The file; stems get their part's name before the ending.</param>
    /// <param name="ending">wav or opus.</param>
    /// <param name="played">What is sounded.</param>
    /// <param name="choice">How.</param>
    /// <exception cref="RequestException">There is nothing to be sounded, or the file has no name for several.</exception>
    public static void Write(string path, string ending, Break played, SoundChoice choice)
    {
        var options = choice.Options;
        var strokes = played.Played();
        if (!strokes.Any(stroke => stroke.At >= options.From && (options.To is not { } to || stroke.At < to)))
            throw new RequestException(
                strokes.IsEmpty
                    ? "the break has no notes: there is nothing to be sounded"
                    : "the bars asked for have no notes; ask for others"
            );
        if (choice.Stems && path == "-")
            throw new RequestException("stems are several files and need a name; give -o");
        if (!options.Band.IsEmpty && played.Bars.All(bar => bar.Chords.IsEmpty))
            Exit.Say("the break has no chords: of the band only the click plays");
        if (ending == "wav")
            DemandRoom(path, played, choice);
        if (!choice.Stems)
        {
            Write(path, ending, Synth.Render(played, options), played.Title, choice.Encoding);
            return;
        }
        foreach (var stem in Synth.Stems(played, options))
        {
            var own = Path.Combine(
                Path.GetDirectoryName(path) ?? "",
                $"{Path.GetFileNameWithoutExtension(path)}-{stem.Name}{Path.GetExtension(path)}"
            );
            Write(own, ending, stem.Sound, $"{played.Title}: {stem.Name}", choice.Encoding);
        }
    }

    private static void DemandRoom(string path, Break played, SoundChoice choice)
    {
        var options = choice.Options;
        var ensemble = Ensemble.Of(played, options);
        var frames = (ensemble.Timeline.Seconds + options.Tail) * options.SampleRate;
        var values = frames * (options.Stereo ? 2 : 1) * (choice.Stems ? ensemble.Parts.Length : 1);
        OutputFile.DemandRoom(path, (long)(values * WavWriter.BytesPerValue(choice.Encoding)));
    }

    private static void Write(string path, string ending, Samples sound, string title, WavEncoding encoding)
    {
        OutputFile.Write(
            path,
            ending == "opus" ? OpusWriter.ToBytes(sound, title) : WavWriter.ToBytes(sound, encoding)
        );
        var loudness = IntegratedLoudness.Of(sound);
        var peak = TruePeak.Of(sound);
        var name = path == "-" ? "standard output" : path;
        Exit.Say(
            double.IsFinite(loudness)
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"{name}: {sound.Duration.TotalSeconds:0.0} s; loudness {loudness:0.0} LUFS, true peak {20 * Math.Log10(peak):0.0} dB"
                )
                : string.Create(CultureInfo.InvariantCulture, $"{name}: {sound.Duration.TotalSeconds:0.0} s; silent")
        );
    }
}
