using System.CommandLine;
using System.Text;
using Rollwright.Cli.Files;

namespace Rollwright.Cli.Commands.Library;

/// <summary><c>rollwright library export WORDS -o FILE</c></summary>
internal static class ExportTunes
{
    public static Command Build()
    {
        var words = new Argument<string[]>("words")
        {
            Description = "As for find; all tunes without any.",
            Arity = ArgumentArity.ZeroOrMore,
        };
        var output = new Option<string>("--output", "-o")
        {
            Description = "The ABC file to write; - is standard output.",
            DefaultValueFactory = _ => "-",
        };
        var command = new Command("export", "Writes tunes as ABC, as they came.") { words, output };
        command.SetAction(
            async (parsed, _) =>
            {
                var library = await LibraryCommand.OpenAsync(parsed);
                var asked = string.Join(' ', parsed.GetValue(words) ?? []);
                var found =
                    asked.Length == 0
                        ? await library.TunesAsync(int.MaxValue)
                        : await library.FindAsync(asked, int.MaxValue);
                if (found.Count == 0)
                    return Exit.No;
                var text = string.Concat(found.Select(tune => tune.Abc.TrimEnd() + "\n\n"));
                if (parsed.GetValue(output) is { } path && path != "-")
                    OutputFile.Write(path, Encoding.UTF8.GetBytes(text));
                else
                    Console.Write(text);
                return Exit.Done;
            }
        );
        return command;
    }
}
