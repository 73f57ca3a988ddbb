using System.CommandLine;
using System.Text.Json;
using Rollwright.Arranging;
using Rollwright.Arranging.Advice;
using Rollwright.Cli.Asking;
using Rollwright.Cli.Files;
using Rollwright.Music.Forms;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright advise TUNE</c>: which setting and which style suit a tune.</summary>
internal static class AdviseCommand
{
    private static readonly SettingOptions Setting = new();

    public static Command Build()
    {
        var tune = new Argument<string>("tune") { Description = "A tune in ABC notation; - is standard input." };
        var json = new Option<bool>("--json") { Description = "Answer in JSON." };
        var command = new Command("advise", "Says which settings and styles suit a tune, by solving it in each.")
        {
            tune,
            json,
        };
        Setting.AddTo(command);
        command.SetAction(parsed =>
        {
            var path = parsed.GetRequiredValue(tune);
            var read = TuneInput.ReadOne(path, "give a file with one tune");
            var advice = RequestException.Naming(path, () => Arranger.Advise(read, Setting.Read(parsed)));
            if (parsed.GetValue(json))
                Console.WriteLine(Json(advice, read.Numbering));
            else
                Print(advice);
            return Exit.Done;
        });
        return command;
    }

    private static void Print(TuneAdvice advice)
    {
        foreach (var sentence in advice.Sentences)
            Console.WriteLine(sentence);
        Console.WriteLine();
        Console.WriteLine($"{"style", -14} {"kept", 5} {"work", 5}  setting");
        foreach (var way in advice.Ways)
            Console.WriteLine(
                FormattableString.Invariant(
                    $"{way.Style, -14} {100 * way.Kept, 3:0} % {way.Work / 1000.0, 5:0.0}  {SettingWords.OfTune(way.Setting)}"
                )
            );
        Exit.Say("kept: share of the tune that is played; work: what the hands do a bar, in plain notes left out");
    }

    private static string Json(TuneAdvice advice, BarNumbering numbering) =>
        JsonSerializer.Serialize(
            new
            {
                style = advice.Style,
                sentences = advice.Sentences,
                ways = advice.Ways.Select(way => new
                {
                    style = way.Style,
                    tuning = way.Setting.Tuning.Id,
                    capo = way.Setting.Capo,
                    position = way.Setting.Position.ToString(),
                    octave = way.Setting.Octave,
                    shift = way.Setting.Shift,
                    kept = Math.Round(way.Kept, 4),
                    work = way.Work,
                    price = way.Price,
                }),
                phrases = advice.Phrases.Select(phrase => new
                {
                    from = numbering[phrase.FirstBar].Number,
                    to = numbering[phrase.LastBar].Number,
                    roll = Math.Round(phrase.Roll, 4),
                    melodic = Math.Round(phrase.Melodic, 4),
                    stepwise = phrase.IsStepwise,
                }),
            }
        );
}
