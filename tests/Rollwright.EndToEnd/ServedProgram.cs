using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Rollwright.EndToEnd;

/// <summary>The real program serving a library of a test's own, in a process that can be killed.</summary>
internal sealed partial class ServedProgram : IDisposable
{
    private readonly Process process;

    private ServedProgram(Process process, string address)
    {
        this.process = process;
        Address = address;
    }

    public string Address { get; }

    public int ProcessId => process.Id;

    /// <param name="library">Its place.</param>
    /// <param name="more">Further arguments.</param>
    public static async Task<ServedProgram> Start(string library, params string[] more)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            RedirectStandardOutput = true,
            UseShellExecute = false,
            ArgumentList =
            {
                Path.Combine(AppContext.BaseDirectory, "rollwright.dll"),
                "serve",
                "--library",
                library,
                "--port",
                "0",
            },
        };
        foreach (var argument in more)
            start.ArgumentList.Add(argument);
        var process = Process.Start(start)!;
        var line = await process.StandardOutput.ReadLineAsync() ?? "";
        return new(process, Place().Match(line).Value);
    }

    /// <summary>SIGKILL: nothing of it runs any more when this returns.</summary>
    public void Kill()
    {
        process.Kill();
        process.WaitForExit();
    }

    public void Dispose()
    {
        if (!process.HasExited)
            Kill();
        process.Dispose();
    }

    [GeneratedRegex(@"http://127\.0\.0\.1:\d+", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Place();
}
