using System.CommandLine;
using Rollwright.Arranging;
using Rollwright.Arranging.Fingering;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Files;
using Rollwright.Formats.Midi;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright finger FILE -o FILE</c>: strings and fingers for notes that are given.</summary>
internal static class FingerCommand
{
    private static readonly Argument<string> Input = new("notes")
    {
        Description = "Notes in ABC, MIDI or MusicXML; - is standard input.",
    };
    private static readonly Option<string> Output = new("--output", "-o")
    {
        Description =
            $"The file to write; its ending says the form: {Forms.Known}. - is plain-text tab on standard output.",
        DefaultValueFactory = _ => "-",
    };
    private static readonly Option<int> Octaves = new("--octaves")
    {
        Description = "Octaves up, or down with a minus, from the pitch given.",
        DefaultValueFactory = _ => 0,
    };
    private static readonly Option<int?> Track = new("--track") { Description = "One track of a MIDI file, from 1." };
    private static readonly Option<int?> Channel = new("--channel")
    {
        Description = "One channel of a MIDI file, 1 to 16.",
    };
    private static readonly Option<bool> Together = new("--together")
    {
        Description = "All tracks and channels of a MIDI file but the drums, not only what seems to be the melody.",
    };
    private static readonly Option<string?> Part = new("--part")
    {
        Description = "Name or id of a part of a MusicXML score; the first with notes by default.",
    };
    private static readonly Option<string?> Voice = new("--voice")
    {
        Description = "A voice of that part by its number, or all; by default the one that seems to be the melody.",
    };
    private static readonly SettingOptions Setting = new();

    public static Command Build()
    {
        var command = new Command(
            "finger",
            "Finds strings and fingers for notes that are given: none is added; exit code 1 where some cannot be played."
        )
        {
            Input,
            Output,
            Octaves,
            Track,
            Channel,
            Together,
            Part,
            Voice,
        };
        Setting.AddHandsTo(command);
        command.SetAction(Run);
        return command;
    }

    private static int Run(ParseResult parsed)
    {
        var path = parsed.GetRequiredValue(Input);
        var target = parsed.GetRequiredValue(Output);
        var form = Forms.OfFile(target);
        if (parsed.GetValue(Octaves) is < -4 or > 4)
            throw new RequestException(
                $"--octaves {parsed.GetValue(Octaves)}: -4 to 4 octaves are enough for any banjo"
            );
        var choice = new MidiChoice
        {
            Track = parsed.GetValue(Track),
            Channel = parsed.GetValue(Channel),
            Together = parsed.GetValue(Together),
        };
        var notes = NotesInput.Read(path, choice, new(parsed.GetValue(Part), parsed.GetValue(Voice)));
        var done = RequestException.Naming(
            path,
            () => Fingerer.Finger(notes, Setting.Read(parsed), parsed.GetValue(Octaves))
        );
        OutputFile.Write(target, form.Write(done.Break));
        var numbering = done.Break.Numbering;
        foreach (var left in done.Left)
            Exit.Say(
                $"{InputFile.NameOf(path)}: {numbering.Place(left.Bar, left.At)}: {left.Pitch} cannot be played: {left.Why}"
            );
        Exit.Say(
            $"{InputFile.NameOf(path)}: {SettingWords.Of(done.Break.Setting)}; {(done.Left.IsEmpty ? "every note is played" : $"{done.Left.Length} left out; try another octave, tuning, capo or level")}"
        );
        return done.Left.IsEmpty ? Exit.Done : Exit.No;
    }
}
