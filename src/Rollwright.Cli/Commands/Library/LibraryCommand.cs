using System.CommandLine;
using Rollwright.Class;
using Rollwright.Cli.Files;
using Rollwright.Library;
using Rollwright.Library.Backups;

namespace Rollwright.Cli.Commands.Library;

/// <summary><c>rollwright library import|find|list|tag|export|backup|restore|move</c>: the tunes and breaks that are kept.</summary>
internal static class LibraryCommand
{
    private static Option<string?> Place { get; } =
        new("--library")
        {
            Description =
                $"The library's file, or the connection string of a PostgreSQL database; else what {LibraryPlace.Variable} says; else library.db in your data folder.",
            Recursive = true,
        };

    private static Option<string?> Member { get; } =
        new("--member")
        {
            Description =
                "Where a class shares the library: what this member has in it, by the name that they sign in with.",
            Recursive = true,
        };

    public static Command Build() =>
        new("library", "Keeps tunes and breaks: brings tunes in, finds them, backs them up.")
        {
            ImportTunes.Build(),
            FindTunes.Build(),
            ListTunes.Build(),
            TagTunes.Build(),
            ExportTunes.Build(),
            BackUp.Build(),
            BackUp.BuildRestore(),
            MoveLibrary.Build(),
            Place,
            Member,
        };

    public static LibraryPlace PlaceOf(ParseResult parsed) => LibraryPlace.Of(parsed.GetValue(Place));

    /// <summary>Null where nobody is named.</summary>
    public static string? MemberOf(ParseResult parsed) => parsed.GetValue(Member);

    /// <exception cref="LibraryException">It cannot be opened.</exception>
    public static Task<TuneLibrary> OpenAsync(ParseResult parsed) => OpenAsync(PlaceOf(parsed), MemberOf(parsed));

    /// <param name="place">Where it lies.</param>
    /// <param name="member">Whose things of it; null for all, or the one person's.</param>
    /// <exception cref="RequestException">Nobody of the class is called so.</exception>
    public static async Task<TuneLibrary> OpenAsync(LibraryPlace place, string? member)
    {
        var library = await TuneLibrary.OpenAsync(place, TimeProvider.System);
        if (member is null)
            return library;
        var found = await (await Classroom.OpenAsync(library, TimeProvider.System)).FindMemberAsync(member);
        return library.For(
            found?.Id ?? throw new RequestException($"--member {member}: nobody of the class is called so")
        );
    }

    /// <summary>The class's part of a backup; null where it is not wanted.</summary>
    public static async Task<IBackupPart?> ClassOf(TuneLibrary library, bool isWanted) =>
        isWanted ? (await Classroom.OpenAsync(library, TimeProvider.System)).Backup : null;
}
