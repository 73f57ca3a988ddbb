using System.CommandLine;
using System.Net.Sockets;
using Microsoft.AspNetCore.Connections;
using Rollwright.Cli.Commands.Class;
using Rollwright.Cli.Files;
using Rollwright.Library;
using Rollwright.Web.Hosting;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright serve --port N</c>: the workbench on the loopback address; <c>--class</c>: for a class.</summary>
internal static class ServeCommand
{
    public const int UsualPort = 5080;

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
        var command = new Command(
            "serve",
            "Opens the workbench on 127.0.0.1, for this computer alone; with --class for a class."
        )
        {
            port,
            place,
        };
        var ofClass = new ClassOptions();
        ofClass.AddTo(command);
        command.SetAction(
            async (parsed, stop) =>
            {
                var asked = parsed.GetValue(port);
                if (asked is < 0 or > 65535)
                    throw new RequestException($"--port {asked}: a port is 0 to 65535");
                var library = await TuneLibrary.OpenAsync(LibraryPlace.Of(parsed.GetValue(place)), TimeProvider.System);
                var serving = await ofClass.ReadAsync(parsed, library);
                try
                {
                    await Workbench.RunAsync(
                        asked,
                        address =>
                            Console.WriteLine(
                                $"{(serving is null ? "The workbench" : "The class")} is open at {address} (Ctrl+C ends it); the work is kept in {library.Place.Name}."
                            ),
                        library,
                        serving,
                        stop
                    );
                }
                catch (IOException fault) when (fault.InnerException is AddressInUseException)
                {
                    throw new RequestException($"--port {asked}: the port is taken; give another, or 0 for a free one");
                }
                catch (SocketException fault) when (fault.SocketErrorCode == SocketError.AccessDenied)
                {
                    throw new RequestException(
                        $"--port {asked}: this computer keeps the port for its administrator; give one above 1023, or 0 for a free one"
                    );
                }
                return Exit.Done;
            }
        );
        return command;
    }
}
