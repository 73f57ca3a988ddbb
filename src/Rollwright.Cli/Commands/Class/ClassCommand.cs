using System.CommandLine;
using Rollwright.Class;
using Rollwright.Class.People;
using Rollwright.Cli.Files;
using Rollwright.Library;

namespace Rollwright.Cli.Commands.Class;

/// <summary><c>rollwright class invite</c>: the first teacher comes in this way, for there is no account by default.</summary>
internal static class ClassCommand
{
    public static Option<string?> Place { get; } =
        new("--library")
        {
            Description =
                $"The connection string of the class's PostgreSQL database; else what {LibraryPlace.Variable} says.",
            Recursive = true,
        };

    public static Command Build() =>
        new("class", "A class that shares a library: who is let in.") { BuildInvite(), Place };

    private static Command BuildInvite()
    {
        var teacher = new Option<string?>("--teacher") { Description = "A teacher of this name." };
        var pupil = new Option<string?>("--pupil") { Description = "A pupil of this name." };
        var forgotten = new Option<string?>("--forgotten")
        {
            Description = "A new password for the member of this name.",
        };
        var at = new Option<string>("--at")
        {
            Description = "Where the class is served.",
            DefaultValueFactory = _ => $"http://127.0.0.1:{ServeCommand.UsualPort}",
        };
        var command = new Command("invite", "Prints a link that lets somebody in, once, within two weeks.")
        {
            teacher,
            pupil,
            forgotten,
            at,
        };
        command.SetAction(
            async (parsed, _) =>
            {
                var (asTeacher, asPupil, renewed) = (
                    parsed.GetValue(teacher),
                    parsed.GetValue(pupil),
                    parsed.GetValue(forgotten)
                );
                if (new[] { asTeacher, asPupil, renewed }.Count(name => name is not null) != 1)
                    throw new RequestException("say one of --teacher NAME, --pupil NAME, --forgotten NAME");
                var room = await OpenAsync(parsed.GetValue(Place));
                var made =
                    renewed is not null
                        ? await room.NewPasswordAsync(
                            null,
                            (await room.FindMemberAsync(renewed))?.Id
                                ?? throw new RequestException(
                                    $"--forgotten {renewed}: nobody of the class is called so"
                                )
                        )
                    : asTeacher is not null ? await room.InviteAsync(null, asTeacher, Role.Teacher)
                    : await room.InviteAsync(null, asPupil!, Role.Pupil);
                Console.WriteLine(
                    new Uri(ClassOptions.Web("--at", parsed.GetRequiredValue(at)), $"/invitation/{made.Secret}")
                );
                return Exit.Done;
            }
        );
        return command;
    }

    /// <exception cref="LibraryException">It is no class's place, or does not answer.</exception>
    public static async Task<Classroom> OpenAsync(string? place) =>
        await Classroom.OpenAsync(
            await TuneLibrary.OpenAsync(LibraryPlace.Of(place), TimeProvider.System),
            TimeProvider.System
        );
}
