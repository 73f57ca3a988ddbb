using System.CommandLine;
using Rollwright.Class;
using Rollwright.Library.Backups;

namespace Rollwright.Cli.Commands.Library;

/// <summary><c>rollwright library backup FILE</c> and <c>restore FILE</c></summary>
internal static class BackUp
{
    public static Command Build()
    {
        var file = new Argument<string>("file") { Description = "The zip to write." };
        var command = new Command("backup", "Writes all of a library as one zip of open formats.") { file };
        command.SetAction(
            async (parsed, _) =>
            {
                var library = await LibraryCommand.OpenAsync(parsed);
                var hasClass = library.Owner.Length == 0 && await Classroom.IsThereAsync(library);
                await Backup.WriteAsync(
                    library,
                    parsed.GetRequiredValue(file),
                    TimeProvider.System,
                    await LibraryCommand.ClassOf(library, hasClass)
                );
                Exit.Say(
                    hasClass
                        ? $"the class and all that its members keep are in {parsed.GetRequiredValue(file)}; keep it where nobody else reads it"
                        : $"{await library.CountAsync()} tunes, their breaks and what belongs to them are in {parsed.GetRequiredValue(file)}"
                );
                return Exit.Done;
            }
        );
        return command;
    }

    public static Command BuildRestore()
    {
        var file = new Argument<string>("file") { Description = "A backup." };
        var command = new Command("restore", "Adds what a backup holds; what is there already stays as it is.")
        {
            file,
        };
        command.SetAction(
            async (parsed, _) =>
            {
                var library = await LibraryCommand.OpenAsync(parsed);
                var name = parsed.GetRequiredValue(file);
                var isClass = library is { Owner: "", Place.IsServer: true } && Backup.HoldsFolder(name, "class");
                var added = await Backup.RestoreAsync(library, name, await LibraryCommand.ClassOf(library, isClass));
                Exit.Say($"{added.Words} added to {library.Place.Name}");
                return Exit.Done;
            }
        );
        return command;
    }
}
