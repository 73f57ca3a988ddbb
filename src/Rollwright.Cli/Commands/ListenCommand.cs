using System.CommandLine;
using System.Globalization;
using System.Text;
using Rollwright.Audio.Reading;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Files;
using Rollwright.Lessons.Captions;
using Rollwright.Listening;
using Rollwright.Listening.Takes;
using Rollwright.Music.Metre;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright listen TAKE…</c>: what was played in a recording.</summary>
internal static class ListenCommand
{
    private static readonly Argument<string[]> Takes = new("take")
    {
        Description =
            "Recordings of a banjo alone or in front: WAV, MP3, Ogg Vorbis, Opus, others (FLAC, AAC, videos) by ffmpeg; - is standard input.",
        Arity = ArgumentArity.OneOrMore,
    };
    private static readonly Option<string> Output = new("--output", "-o")
    {
        Description =
            $"The file to write; its ending says the form: {Forms.Known}. - is plain-text tab on standard output.",
        DefaultValueFactory = _ => "-",
    };
    private static readonly Option<bool> Json = new("--json")
    {
        Description = "Answer in JSON: every note with its time, pitch, string, fret, finger and confidence.",
    };
    private static readonly Option<string?> Metre = new("--metre")
    {
        Description = "The metre that was played in; found by default (4/4, 3/4 or 6/8; with --melody 9/8 too).",
    };
    private static readonly Option<bool> Melody = new("--melody")
    {
        Description = "The recording is one line alone (fiddle, whistle, voice): write it as a tune in ABC.",
    };
    private static readonly Option<double?> Tempo = new("--tempo")
    {
        Description =
            "Beats of the metre a minute, where they are known (quarters where no metre is given); found by default.",
    };
    private static readonly Option<string?> Against = new("--against")
    {
        Description =
            "The break that was meant, in JSON, MusicXML or plain-text tab: say how the take differs from it; exit code 1 where it does not follow it.",
    };
    private static readonly Option<string?> Times = new("--bar-times")
    {
        Description = "Write where the bars fall, for 'lesson --bar-times'.",
    };
    private static readonly Option<string?> Banjo = new("--banjo")
    {
        Description = "The banjo that was played, a file that --learn wrote: it is heard better than a stranger.",
    };
    private static readonly Option<string?> Learn = new("--learn")
    {
        Description =
            "The recording is a slow open roll on a banjo in tune, then frets 1 and 2 of each long string: write what the banjo sounds like, for --banjo.",
    };
    private static readonly SettingOptions Setting = new();
    private static readonly PartOptions Part = new();

    public static Command Build()
    {
        var command = new Command(
            "listen",
            "Writes down what was played in a recording; exit code 1 where no notes are found."
        )
        {
            Takes,
            Output,
            Json,
            Metre,
            Tempo,
            Melody,
            Against,
            Times,
            Banjo,
            Learn,
        };
        Setting.AddInstrumentTo(command);
        Part.AddTo(command);
        command.SetAction((parsed, stop) => Task.Run(() => Run(parsed, stop), stop));
        return command;
    }

    private static int Run(ParseResult parsed, CancellationToken stop)
    {
        var (takes, times) = (parsed.GetRequiredValue(Takes), parsed.GetValue(Times));
        var part = Part.Read(parsed);
        if (times is not null && takes.Length > 1)
            throw new RequestException("--bar-times writes one file: give one take with it");
        if (parsed.GetValue(Against) is { } meant)
            return ListenAgainst.Run(takes, meant, part, parsed.GetValue(Json), times, stop);
        if (parsed.GetValue(Learn) is { } learnt)
            return BanjoFile.Learn(takes, learnt, part, Setting.ReadInstrument(parsed).Tuning, stop);
        var target = parsed.GetRequiredValue(Output);
        if (target != "-" && takes.Length > 1)
            throw new RequestException("-o writes one file: give one take with it");
        if (parsed.GetValue(Melody))
            return MelodyAnswer.Run(takes, part, parsed.GetValue(Json), new(target, TempoOf(parsed), TimeOf(parsed)));
        var options = Options(parsed);
        var form = Forms.OfFile(target);
        var worst = Exit.Done;
        foreach (var path in takes)
        {
            try
            {
                var heard = Hear(path, part, options with { Title = TitleOf(path) }, stop);
                if (parsed.GetValue(Json))
                    Console.WriteLine(ListenWords.Json(path, heard));
                if (heard.Break is { } played)
                {
                    if (!parsed.GetValue(Json) || target != "-")
                        OutputFile.Write(target, form.Write(played));
                    if (times is not null)
                        OutputFile.Write(
                            times,
                            Encoding.UTF8.GetBytes(BarTimesJson.Write(heard.BarTimes[..^1]) + "\n")
                        );
                }
                else
                    worst = Math.Max(worst, Exit.No);
                foreach (var sentence in ListenWords.Of(heard))
                    Exit.Say($"{InputFile.NameOf(path)}: {sentence}");
            }
            catch (Exception fault) when (Exit.IsExpected(fault))
            {
                Exit.Say(fault.Message);
                worst = Exit.Wrong;
            }
        }
        return worst;
    }

    // Progress is for people at a terminal; a pipe or a log gets none.
    private static HeardSoFar? Progress(string path) =>
        Console.IsErrorRedirected
            ? null
            : new HeardSoFar(seconds =>
                Console.Error.Write($"\r{InputFile.NameOf(path)}: {Audio.Reading.Moment.Text(seconds)} heard\r")
            );

    private sealed class HeardSoFar(Action<double> tell) : IProgress<double>
    {
        public void Report(double value) => tell(value);
    }

    private static ListenOptions Options(ParseResult parsed)
    {
        var (tuning, capo) = Setting.ReadInstrument(parsed);
        return new()
        {
            Tuning = tuning,
            Capo = capo,
            Time = TimeOf(parsed),
            PerMinute = TempoOf(parsed),
            Banjo = parsed.GetValue(Banjo) is { } path ? BanjoFile.Read(path) : null,
        };
    }

    private static double? TempoOf(ParseResult parsed) =>
        parsed.GetValue(Tempo) is not { } tempo ? null
        : tempo is >= 20 and <= 400 ? tempo
        : throw new RequestException(
            string.Create(CultureInfo.InvariantCulture, $"--tempo {tempo}: give beats a minute from 20 to 400")
        );

    private static TimeSignature? TimeOf(ParseResult parsed) =>
        parsed.GetValue(Metre) is not { } text ? null
        : text.Split('/') is [var beats, var unit]
        && int.TryParse(beats, NumberStyles.None, CultureInfo.InvariantCulture, out var upper)
        && int.TryParse(unit, NumberStyles.None, CultureInfo.InvariantCulture, out var lower)
        && upper is >= 2 and <= 12
        && lower is 2 or 4 or 8
            ? new(upper, lower)
        : throw new RequestException($"--metre {text}: no metre that is known; write it as 4/4 or 6/8");

    private static string TitleOf(string path) => path == "-" ? "Take" : Path.GetFileNameWithoutExtension(path);

    // Times are told from the start of the recording, not of the part.
    private static Heard Hear(
        string path,
        (double From, double Until) part,
        ListenOptions options,
        CancellationToken stop
    )
    {
        using var recording = new Recording(path, part.From, part.Until);
        var heard = Listener.Listen(recording.Sound.Blocks(), recording.Sound.Rate, options, Progress(path), stop);
        recording.SayWhatWasAmiss();
        return heard with
        {
            Notes = [.. heard.Notes.Select(note => note with { Onset = note.Onset + part.From })],
            BarTimes = [.. heard.BarTimes.Select(time => time + part.From)],
        };
    }
}
