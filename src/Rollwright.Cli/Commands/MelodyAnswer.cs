using System.Text;
using System.Text.Json;
using Rollwright.Cli.Files;
using Rollwright.Formats.Abc;
using Rollwright.Listening.Melodies;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright listen TAKE --melody</c>: one line alone becomes a tune in ABC.</summary>
internal static class MelodyAnswer
{
    /// <param name="Output">Where the tune goes.</param>
    /// <param name="Tempo">Beats a minute: of the metre's beats, quarters where no metre is given; null is to be found.</param>
    /// <param name="Time">Null is to be found.</param>
    internal sealed record Asked(string Output, double? Tempo, TimeSignature? Time);

    public static int Run(string[] paths, (double From, double Until) part, bool asJson, Asked asked)
    {
        if (paths.Length > 1 && asked.Output != "-")
            throw new RequestException(
                $"-o {asked.Output}: one file for {paths.Length} recordings; give them one by one"
            );
        var worst = Exit.Done;
        foreach (var path in paths)
        {
            try
            {
                worst = Math.Max(worst, Answer(path, part.From, part.Until, asJson, asked));
            }
            catch (Exception fault) when (Exit.IsExpected(fault))
            {
                Exit.Say(fault.Message);
                worst = Exit.Wrong;
            }
        }
        return worst;
    }

    private static int Answer(string path, double from, double until, bool asJson, Asked asked)
    {
        using var recording = new Recording(path, from, until);
        var heard = MelodyListener.Listen(recording.Sound, asked.Tempo, asked.Time);
        recording.SayWhatWasAmiss();
        var tune = heard.Tune is { } found ? found with { Title = Title(path) } : null;
        if (asJson)
            Console.WriteLine(JsonSerializer.Serialize(AsJson(path, heard, tune, from)));
        if (tune is null)
        {
            Exit.Say($"{InputFile.NameOf(path)}: no melody found; record one fiddle, whistle or voice alone and near");
            return Exit.No;
        }
        if (!asJson || asked.Output != "-")
            OutputFile.Write(asked.Output, Encoding.UTF8.GetBytes(AbcWriter.Write(tune)));
        return Exit.Done;
    }

    private static string Title(string path) =>
        path == "-" ? "Heard tune" : Path.GetFileNameWithoutExtension(path).Replace('-', ' ').Replace('_', ' ');

    private static object AsJson(string path, HeardMelody heard, Tune? tune, double from) =>
        new
        {
            file = path,
            cents = Math.Round(heard.Cents, 1),
            key = tune?.Key.ToString(),
            metre = tune?.Time.ToString(),
            abc = tune is null ? null : AbcWriter.Write(tune),
            notes = heard.Notes.Select(note => new
            {
                onset = Math.Round(note.Onset + from, 4),
                end = Math.Round(note.End + from, 4),
                pitch = note.Pitch,
                confidence = Math.Round(note.Confidence, 3),
            }),
        };
}
