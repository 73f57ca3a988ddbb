using System.CommandLine;
using Rollwright.Cli.Files;
using Rollwright.Library;
using Rollwright.Web.Hosting;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright serve --port N</c>: the workbench on the loopback address.</summary>
internal static class ServeCommand
{
    private const int UsualPort = 5080;

    public static Command Build()
    {
        var port = new Option<int>("--port")
        {
            Description = "1 to 65535, or 0 for a free one.",
            DefaultValueFactory = _ => UsualPort,
        };
        var place = new Option<string?>("--library")
        {
            Description =
                $"Where the work is kept: a file, or the connection string of a PostgreSQL database; else what {LibraryPlace.Variable} says; else library.db in your data folder.",
        };
        var command = new Command("serve", "Opens the workbench on 127.0.0.1, for this computer alone.")
        {
            port,
            place,
        };
        command.SetAction(
            async (parsed, stop) =>
            {
                var asked = parsed.GetValue(port);
                if (asked is < 0 or > 65535)
                    throw new RequestException($"--port {asked}: a port is 0 to 65535");
                var library = await TuneLibrary.OpenAsync(LibraryPlace.Of(parsed.GetValue(place)), TimeProvider.System);
                try
                {
                    await Workbench.RunAsync(
                        asked,
                        address =>
                            Console.WriteLine(
                                $"The workbench is open at {address} (Ctrl+C ends it); the work is kept in {library.Place.Name}."
                            ),
                        library,
                        stop
                    );
                }
                catch (IOException)
                {
                    throw new RequestException($"--port {asked}: the port is taken; give another, or 0 for a free one");
                }
                return Exit.Done;
            }
        );
        return command;
    }
}
