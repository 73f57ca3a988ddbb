using System.CommandLine;

namespace Rollwright.Cli.Commands.Library;

/// <summary><c>rollwright library list</c></summary>
internal static class ListTunes
{
    public static Command Build()
    {
        var most = new Option<int>("--most") { Description = "How many at most.", DefaultValueFactory = _ => 100 };
        var json = new Option<bool>("--json") { Description = "Answer in JSON." };
        var command = new Command("list", "Lists tunes, the newest first.") { most, json };
        command.SetAction(
            async (parsed, _) =>
            {
                var library = await LibraryCommand.OpenAsync(parsed);
                TuneTable.Print(
                    await library.TunesAsync(Math.Clamp(parsed.GetValue(most), 1, 100_000)),
                    parsed.GetValue(json)
                );
                Exit.Say($"{await library.CountAsync()} tunes in {library.Place.Name}");
                return Exit.Done;
            }
        );
        return command;
    }
}
