using System.CommandLine;

namespace Rollwright.Cli.Commands.Library;

/// <summary><c>rollwright library find WORDS</c></summary>
internal static class FindTunes
{
    public static Command Build()
    {
        var words = new Argument<string[]>("words")
        {
            Description = "Beginnings of words of the title, composer, key, tags, notes.",
            Arity = ArgumentArity.OneOrMore,
        };
        var most = new Option<int>("--most") { Description = "How many at most.", DefaultValueFactory = _ => 50 };
        var json = new Option<bool>("--json") { Description = "Answer in JSON." };
        var command = new Command("find", "Finds tunes by words; exit code 1 where there is none.")
        {
            words,
            most,
            json,
        };
        command.SetAction(
            async (parsed, _) =>
            {
                var library = await LibraryCommand.OpenAsync(parsed);
                var found = await library.FindAsync(
                    string.Join(' ', parsed.GetRequiredValue(words)),
                    Math.Clamp(parsed.GetValue(most), 1, 10_000)
                );
                TuneTable.Print(found, parsed.GetValue(json));
                return found.Count > 0 ? Exit.Done : Exit.No;
            }
        );
        return command;
    }
}
