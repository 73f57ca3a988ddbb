using System.Text;
using System.Text.Json;
using Rollwright.Audio;
using Rollwright.Audio.Reading;
using Rollwright.Banjo.Breaks;
using Rollwright.Cli.Files;
using Rollwright.Formats.TextTab;
using Rollwright.Lessons.Captions;
using Rollwright.Listening.Beside;
using Rollwright.Listening.Beside.Answers;
using Rollwright.Listening.Beside.Words;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright listen TAKE… --against BREAK</c>: how a take differs from the break that was meant.</summary>
internal static class ListenAgainst
{
    public static int Run(
        string[] takes,
        string path,
        (double From, double Until) part,
        bool asJson,
        string? barTimes,
        CancellationToken stop
    )
    {
        var meant = BreakInput.Read(path);
        var worst = Exit.Done;
        foreach (var take in takes)
        {
            try
            {
                var found = BesideBreak.Compare(Read(take, part), meant, stop);
                var words = TakeWords.Of(meant, found);
                if (asJson)
                    Console.WriteLine(JsonSerializer.Serialize(ComparisonJson.Of(take, path, meant, found, words)));
                else
                    Print(take, meant, found, words);
                if (!found.Follows)
                    worst = Math.Max(worst, Exit.No);
                else if (barTimes is not null)
                    WriteTimes(barTimes, found);
            }
            catch (Exception fault) when (Exit.IsExpected(fault) || fault is TakeException)
            {
                Exit.Say(fault is TakeException ? $"{InputFile.NameOf(take)}: {fault.Message}" : fault.Message);
                worst = Exit.Wrong;
            }
        }
        return worst;
    }

    private static Samples Read(string take, (double From, double Until) part)
    {
        using var recording = new Recording(take, part.From, part.Until);
        var samples = recording.Sound.ReadAll(int.MaxValue);
        recording.SayWhatWasAmiss();
        return samples;
    }

    private static void WriteTimes(string path, Comparison found)
    {
        var starts = found.BarStarts;
        if (starts.IsEmpty)
            throw new RequestException(
                $"{path}: the take leaves the first bar out, so no times were written; mark them by hand"
            );
        if (starts.Length < found.Bars.Length)
            Exit.Say(
                $"{path}: times of the first {starts.Length} bars of {found.Bars.Length}; the next one was not played after them"
            );
        OutputFile.Write(path, Encoding.UTF8.GetBytes(BarTimesJson.Write(starts) + "\n"));
    }

    private static void Print(string take, Break meant, Comparison found, TakeWords words)
    {
        Console.WriteLine($"{InputFile.NameOf(take)} beside {meant.Title}");
        foreach (var sentence in words.Whole)
            Console.WriteLine(sentence);
        if (!found.Follows)
            return;
        Console.WriteLine();
        foreach (var phrase in words.Phrases)
            Console.WriteLine(phrase);
        var marks = TakeMarks.Of(found);
        if (marks.IsEmpty)
            return;
        Console.WriteLine();
        Console.Write(TextTabWriter.Write(meant, new() { Marks = marks }));
        Console.WriteLine(TakeMarks.Legend);
    }
}
