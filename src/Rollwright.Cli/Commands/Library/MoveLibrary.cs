using System.CommandLine;
using Rollwright.Class;
using Rollwright.Cli.Files;
using Rollwright.Library;
using Rollwright.Library.Backups;

namespace Rollwright.Cli.Commands.Library;

/// <summary><c>rollwright library move --to PLACE</c>: from a file to a server and back.</summary>
internal static class MoveLibrary
{
    public static Command Build()
    {
        var to = new Option<string>("--to")
        {
            Description = "Where to: a file, or the connection string of a PostgreSQL database.",
            Required = true,
        };
        var command = new Command(
            "move",
            "Brings all of a library into another place; what is there already stays, and so does the old library."
        )
        {
            to,
        };
        command.SetAction(
            async (parsed, _) =>
            {
                var (from, place) = (LibraryCommand.PlaceOf(parsed), LibraryPlace.Of(parsed.GetRequiredValue(to)));
                if (from == place)
                    throw new RequestException("--to: it lies there already");
                var member = LibraryCommand.MemberOf(parsed);
                if (member is not null && from.IsServer == place.IsServer)
                    throw new RequestException(
                        "--member: one member's things move between a file and a class; a class moves whole"
                    );
                // Whose they are is said of the side that has members.
                var source = await LibraryCommand.OpenAsync(from, from.IsServer ? member : null);
                var target = await LibraryCommand.OpenAsync(place, place.IsServer ? member : null);
                var folder = Directory.CreateTempSubdirectory("rollwright-move").FullName;
                try
                {
                    var file = Path.Combine(folder, "library.zip");
                    var hasClass = source.Owner.Length == 0 && await Classroom.IsThereAsync(source);
                    await Backup.WriteAsync(
                        source,
                        file,
                        TimeProvider.System,
                        await LibraryCommand.ClassOf(source, hasClass)
                    );
                    var added = await Backup.RestoreAsync(
                        target,
                        file,
                        await LibraryCommand.ClassOf(target, hasClass && place.IsServer)
                    );
                    Exit.Say($"{added.Words} moved to {place.Name}; {from.Name} is as it was");
                }
                finally
                {
                    Directory.Delete(folder, recursive: true);
                }
                return Exit.Done;
            }
        );
        return command;
    }
}
