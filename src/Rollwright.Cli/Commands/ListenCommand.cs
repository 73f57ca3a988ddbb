using System.CommandLine;
using System.Text.Json;
using Rollwright.Audio.Wave;
using Rollwright.Cli.Files;
using Rollwright.Listening;
using Rollwright.Listening.Takes;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright listen TAKE…</c>: what was played in a recording.</summary>
internal static class ListenCommand
{
    public static Command Build()
    {
        var takes = new Argument<string[]>("take")
        {
            Description = "Recordings of a banjo alone or in front, as WAV; - is standard input.",
            Arity = ArgumentArity.OneOrMore,
        };
        var json = new Option<bool>("--json") { Description = "Answer in JSON." };
        var against = new Option<string?>("--against")
        {
            Description =
                "The break that was meant, in JSON, MusicXML or plain-text tab: say how the take differs from it; exit code 1 where it does not follow it.",
        };
        var barTimes = new Option<string?>("--bar-times")
        {
            Description = "With --against: write where the bars fall, for 'lesson --bar-times'.",
        };
        var command = new Command(
            "listen",
            "Says which notes were played in a recording; exit code 1 where there are none."
        )
        {
            takes,
            json,
            against,
            barTimes,
        };
        command.SetAction(
            (parsed, stop) =>
            {
                var paths = parsed.GetRequiredValue(takes);
                var asJson = parsed.GetValue(json);
                var times = parsed.GetValue(barTimes);
                if (parsed.GetValue(against) is { } path)
                    return Task.Run(() => ListenAgainst.Run(paths, path, asJson, times, stop), stop);
                if (times is not null)
                    throw new RequestException("--bar-times needs --against BREAK: bars are those of a break");
                return Task.FromResult(Run(paths, asJson));
            }
        );
        return command;
    }

    private static int Run(string[] paths, bool asJson)
    {
        var worst = Exit.Done;
        foreach (var path in paths)
        {
            try
            {
                var heard = Listener.Listen(Read(path));
                if (asJson)
                    Console.WriteLine(JsonSerializer.Serialize(AsJson(path, heard)));
                else
                    Print(heard);
                if (heard.Notes.IsEmpty)
                {
                    Exit.Say($"{InputFile.NameOf(path)}: no plucked notes found; record the banjo nearer and alone");
                    worst = Math.Max(worst, Exit.No);
                }
            }
            catch (Exception fault) when (Exit.IsExpected(fault))
            {
                Exit.Say(fault.Message);
                worst = Exit.Wrong;
            }
        }
        return worst;
    }

    /// <exception cref="RequestException">It cannot be read.</exception>
    public static Audio.Samples Read(string path)
    {
        try
        {
            return WavReader.Read(InputFile.Read(path));
        }
        catch (WavException fault)
        {
            throw new RequestException($"{InputFile.NameOf(path)}: {fault.Message}");
        }
    }

    private static void Print(Heard heard)
    {
        foreach (var note in heard.Notes)
            Console.WriteLine(
                $"{note.Onset, 8:0.000} s  key {note.Pitch}  string {note.String?.ToString() ?? "-"}  fret {note.Fret?.ToString() ?? "-", 2}  {note.Finger?.ToString() ?? "-"}"
            );
    }

    private static object AsJson(string path, Heard heard) =>
        new
        {
            file = path,
            cents = Math.Round(heard.Cents, 1),
            notes = heard.Notes.Select(note => new
            {
                onset = Math.Round(note.Onset, 4),
                pitch = note.Pitch,
                @string = note.String,
                fret = note.Fret,
                finger = note.Finger?.ToString(),
                confidence = Math.Round(note.Confidence, 3),
            }),
        };
}
