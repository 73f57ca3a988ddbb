using System.CommandLine;
using System.Globalization;
using Rollwright.Audio;
using Rollwright.Audio.Reading;
using Rollwright.Audio.Stretching;
using Rollwright.Audio.Wave;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright slow RECORDING --to 60 -o FILE</c>: a recording, or a part, slower at the same pitch.</summary>
internal static class SlowCommand
{
    // What is stretched is held whole: this is some hundred megabytes.
    private const double MostSeconds = 10 * 60;
    private const double MostSecondsOut = 60 * 60;

    // Where a part begins and ends, and where it comes round again, nothing clicks.
    private const double FadeSeconds = 0.004;

    public static Command Build()
    {
        var input = new Argument<string>("recording")
        {
            Description = "WAV, MP3, Ogg Vorbis, Opus, others (FLAC, AAC, videos) by ffmpeg; - is standard input.",
        };
        var to = new Option<double>("--to")
        {
            Description = "The tempo in per cent of what was played, 25 to 200.",
            DefaultValueFactory = _ => 70,
        };
        var output = new Option<string>("--output", "-o")
        {
            Description = "The WAV file to write; - is standard output.",
            Required = true,
        };
        var loop = new Option<int>("--loop")
        {
            Description = "How often the part comes, 1 to 100.",
            DefaultValueFactory = _ => 1,
        };
        var part = new PartOptions();
        var command = new Command("slow", "Slows a recording, or a part of it, and keeps its pitch.")
        {
            input,
            to,
            output,
            loop,
        };
        part.AddTo(command);
        command.SetAction(parsed =>
        {
            var percent = parsed.GetValue(to);
            if (!(percent >= 100 / Stretcher.Most && percent <= 100 / Stretcher.Least))
                throw new RequestException($"--to {percent}: give a tempo from 25 to 200 per cent");
            var times = parsed.GetValue(loop);
            if (times is < 1 or > 100)
                throw new RequestException($"--loop {times}: give a count from 1 to 100");
            var path = parsed.GetRequiredValue(output);
            if (path != "-" && !path.EndsWith(".wav", StringComparison.OrdinalIgnoreCase))
                throw new RequestException($"{path}: slowed sound is written as WAV; give a name that ends with .wav");
            var (from, until) = part.Read(parsed);
            Write(path, Slowed(parsed.GetRequiredValue(input), from, until, percent, times));
            return Exit.Done;
        });
        return command;
    }

    private static Samples Slowed(string path, double from, double until, double percent, int times)
    {
        var name = InputFile.NameOf(path);
        using var source = SoundInput.Open(path).Between(from, until);
        var sound = source.ReadAll((int)(MostSeconds * source.Rate) + 1);
        foreach (var remark in source.Remarks)
            Exit.Say($"{name}: {remark}");
        if (sound.Frames == 0)
            throw new RequestException($"{name}: there is no sound in what was asked for; ask for another part");
        if (sound.Duration.TotalSeconds > MostSeconds)
            throw new RequestException(
                $"{name}: more than {MostSeconds / 60:0} minutes cannot be slowed at once; give --from and --until"
            );
        if (sound.Duration.TotalSeconds * 100 / percent * times > MostSecondsOut)
            throw new RequestException(
                $"{name}: this would last more than {MostSecondsOut / 60:0} minutes; ask for a shorter part or fewer times"
            );
        return Repeated(Stretcher.Stretch(sound, 100 / percent), times);
    }

    private static Samples Repeated(Samples sound, int times)
    {
        var fade = Math.Min((int)(FadeSeconds * sound.Rate), sound.Frames / 2);
        var once = sound.Interleaved.ToArray();
        for (var i = 0; i < fade * sound.Channels; i++)
        {
            var weight = (i / sound.Channels) / (float)fade;
            once[i] *= weight;
            once[^(i + 1)] *= weight;
        }
        var all = new float[once.Length * times];
        for (var i = 0; i < times; i++)
            once.CopyTo(all, i * once.Length);
        return new(sound.Rate, sound.Channels, all);
    }

    private static void Write(string path, Samples sound)
    {
        OutputFile.DemandRoom(path, (long)sound.Interleaved.Length * WavWriter.BytesPerValue(WavEncoding.Pcm16));
        OutputFile.Write(path, WavWriter.ToBytes(sound));
        Exit.Say(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{(path == "-" ? "standard output" : path)}: {sound.Duration.TotalSeconds:0.0} s"
            )
        );
    }
}
