using System.Diagnostics;

namespace Rollwright.EndToEnd.CommandLine;

/// <summary>Runs the program as a person does.</summary>
internal static class Program
{
    public static (int Code, string Out, string Err) Run(string folder, params IEnumerable<string> arguments) =>
        Run(folder, null, arguments);

    public static (int Code, string Out, string Err) Run(string folder, string? input, IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(
            "dotnet",
            [Path.Combine(AppContext.BaseDirectory, "rollwright.dll"), .. arguments]
        )
        {
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            UseShellExecute = false,
            RedirectStandardError = true,
        };
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        if (input is not null)
            process.StandardInput.Write(input);
        process.StandardInput.Close();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output, error.Result);
    }

    /// <summary>Begins and does not wait; what it says is thrown away.</summary>
    public static Process Start(string folder, params IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(
            "dotnet",
            [Path.Combine(AppContext.BaseDirectory, "rollwright.dll"), .. arguments]
        )
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        var process = Process.Start(start)!;
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        return process;
    }
}
