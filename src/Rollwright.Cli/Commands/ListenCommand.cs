using System.CommandLine;
using System.Text.Json;
using Rollwright.Audio.Reading;
using Rollwright.Cli.Asking;
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
            Description =
                "Recordings of a banjo alone or in front: WAV, FLAC, MP3, Ogg Vorbis, Opus, others by ffmpeg; - is standard input.",
            Arity = ArgumentArity.OneOrMore,
        };
        var json = new Option<bool>("--json") { Description = "Answer in JSON." };
        var part = new PartOptions();
        var command = new Command(
            "listen",
            "Says which notes were played in a recording; exit code 1 where there are none."
        )
        {
            takes,
            json,
        };
        part.AddTo(command);
        var melody = new MelodyOptions();
        melody.AddTo(command);
        command.SetAction(parsed =>
        {
            var (from, until) = part.Read(parsed);
            if (melody.Read(parsed) is { } asked)
                return MelodyAnswer.Run(parsed.GetRequiredValue(takes), from, until, parsed.GetValue(json), asked);
            return Run(parsed.GetRequiredValue(takes), from, until, parsed.GetValue(json));
        });
        return command;
    }

    private static int Run(string[] paths, double from, double until, bool asJson)
    {
        var worst = Exit.Done;
        foreach (var path in paths)
        {
            try
            {
                var heard = Later(Listener.Listen(Read(path, from, until)), from);
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

    // Times are told from the start of the recording, not of the part.
    private static Heard Later(Heard heard, double seconds) =>
        heard with
        {
            Notes = [.. heard.Notes.Select(note => note with { Onset = note.Onset + seconds })],
        };

    private static Audio.Samples Read(string path, double from, double until)
    {
        using var recording = new Recording(path, from, until);
        var samples = recording.Sound.ReadAll(int.MaxValue);
        recording.SayWhatWasAmiss();
        return samples;
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
