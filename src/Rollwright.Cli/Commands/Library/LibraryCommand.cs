using System.CommandLine;
using Rollwright.Library;

namespace Rollwright.Cli.Commands.Library;

/// <summary><c>rollwright library import|find|list|tag|export|backup|restore</c>: the tunes and breaks that are kept.</summary>
internal static class LibraryCommand
{
    private static Option<string?> Place { get; } =
        new("--library")
        {
            Description =
                $"The library's file, or the connection string of a PostgreSQL database; else what {LibraryPlace.Variable} says; else library.db in your data folder.",
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
            Place,
        };

    /// <exception cref="LibraryException">It cannot be opened.</exception>
    public static Task<TuneLibrary> OpenAsync(ParseResult parsed) =>
        TuneLibrary.OpenAsync(LibraryPlace.Of(parsed.GetValue(Place)), TimeProvider.System);
}
