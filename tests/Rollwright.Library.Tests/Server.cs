using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Npgsql;

namespace Rollwright.Library.Tests;

/// <summary>
/// A PostgreSQL server of Debian's package, started once for all tests in a folder of its own; tests skip with a notice where it
/// cannot be. It does not run as root, so that root lends it the user that the package made.
/// </summary>
internal static class Server
{
    private static readonly Lazy<Task<string?>> Started = new(Start);

    public static async Task<string> CreateDatabase()
    {
        var server = await Started.Value;
        Assert.SkipWhen(server is null, "needs a PostgreSQL server (Debian: postgresql), which cannot be started here");
        var name = $"t{Guid.NewGuid():N}";
        await Run($"{server};Database=postgres", $"CREATE DATABASE {name}");
        return $"{server};Database={name};Pooling=false";
    }

    public static Task Drop(string connection)
    {
        var name = new NpgsqlConnectionStringBuilder(connection).Database!;
        return Run($"{Started.Value.Result};Database=postgres", $"DROP DATABASE IF EXISTS {name} WITH (FORCE)");
    }

    private static async Task Run(string connection, string sql)
    {
        await using var open = new NpgsqlConnection(connection);
        await open.OpenAsync();
        await using var command = new NpgsqlCommand(sql, open);
        await command.ExecuteNonQueryAsync();
    }

    private static async Task<string?> Start()
    {
        var bin = Directory.Exists("/usr/lib/postgresql")
            ? Directory.GetDirectories("/usr/lib/postgresql").Order(StringComparer.Ordinal).LastOrDefault()
            : null;
        if (bin is null)
            return null;
        bin = Path.Combine(bin, "bin");
        var folder = Directory.CreateTempSubdirectory("rollwright-postgres").FullName;
        var data = Path.Combine(folder, "data");
        if (Environment.UserName == "root" && !Call("chown", "postgres", folder))
            return null;
        using var free = new TcpListener(IPAddress.Loopback, 0);
        free.Start();
        var port = ((IPEndPoint)free.LocalEndpoint).Port;
        free.Stop();
        if (
            !AsOwner(Path.Combine(bin, "initdb"), "-D", data, "-U", "tester", "-A", "trust", "-E", "UTF8", "--no-sync")
            || !AsOwner(
                Path.Combine(bin, "pg_ctl"),
                "-D",
                data,
                "-w",
                "-l",
                Path.Combine(folder, "log"),
                "-o",
                $"-p {port} -c listen_addresses=127.0.0.1 -c fsync=off -k {folder}",
                "start"
            )
        )
            return null;
        AppDomain.CurrentDomain.ProcessExit += (_, _) =>
        {
            AsOwner(Path.Combine(bin, "pg_ctl"), "-D", data, "-m", "immediate", "stop");
            Directory.Delete(folder, recursive: true);
        };
        await Task.Yield();
        return $"Host=127.0.0.1;Port={port};Username=tester";
    }

    private static bool AsOwner(string program, params string[] arguments) =>
        Environment.UserName == "root"
            ? Call("runuser", ["-u", "postgres", "--", program, .. arguments])
            : Call(program, arguments);

    private static bool Call(string program, params string[] arguments)
    {
        try
        {
            // No pipes: the server that is left running would hold them open.
            var start = new ProcessStartInfo("/bin/sh")
            {
                UseShellExecute = false,
                WorkingDirectory = "/",
                ArgumentList = { "-c", "exec \"$0\" \"$@\" >/dev/null 2>&1", program },
            };
            foreach (var argument in arguments)
                start.ArgumentList.Add(argument);
            using var process = Process.Start(start)!;
            process.WaitForExit();
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}
