using System.CommandLine;
using System.Diagnostics;
using Rollwright.Library.Importing;

namespace Rollwright.Cli.Commands.Library;

/// <summary><c>rollwright library import FOLDER|FILE…</c></summary>
internal static class ImportTunes
{
    // So many duplicates and faults are told one by one.
    private const int MostTold = 20;

    public static Command Build()
    {
        var paths = new Argument<string[]>("path")
        {
            Description = "ABC files, and folders that are searched for .abc.",
            Arity = ArgumentArity.OneOrMore,
        };
        var tags = new Option<string?>("--tag")
        {
            Description = "Words of your own for all of them, such as class,easy.",
        };
        var command = new Command("import", "Brings tunes in; what is there already, in whatever key, is not doubled.")
        {
            paths,
            tags,
        };
        command.SetAction(
            async (parsed, cancel) =>
            {
                StepBack();
                var library = await LibraryCommand.OpenAsync(parsed);
                var report = await AbcImport.RunAsync(
                    library,
                    parsed.GetRequiredValue(paths),
                    [
                        .. (parsed.GetValue(tags) ?? "").Split(
                            ',',
                            StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
                        ),
                    ],
                    TimeProvider.System,
                    Console.IsErrorRedirected ? null : new Shown(),
                    cancel
                );
                Tell(report);
                return report.Faults.IsEmpty && !report.WasCancelled ? Exit.Done : Exit.Wrong;
            }
        );
        return command;
    }

    // Thousands of tunes come in while others, perhaps on this machine, change theirs: whoever waits at a page comes first. Before
    // anything else: on Linux threads have the standing of the one that began them.
    private static void StepBack()
    {
        using var own = Process.GetCurrentProcess();
        own.PriorityClass = ProcessPriorityClass.BelowNormal;
    }

    private static void Tell(ImportReport report)
    {
        foreach (var copy in report.Duplicates.Take(MostTold))
            Exit.Say($"{copy.Place}: {copy.Title}: the same melody is there as '{copy.Known}'; left out");
        if (report.Duplicates.Length > MostTold)
            Exit.Say($"and {report.Duplicates.Length - MostTold} more that were there already");
        foreach (var fault in report.Faults)
            Exit.Say(fault);
        Exit.Say(
            $"{report.Added} tunes added, {report.Duplicates.Length} were there already, {report.Faults.Length} could not be read"
                + (report.WasCancelled ? "; stopped: run it again for the rest" : "")
        );
    }

    // On a terminal only: a pipe is not for progress.
    private sealed class Shown : IProgress<ImportProgress>
    {
        private const int Every = 100;

        public void Report(ImportProgress value)
        {
            if (value.Read % Every == 0)
                Console.Error.Write($"\r{value.Read} tunes read");
        }
    }
}
