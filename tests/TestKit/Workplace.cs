using System.Diagnostics;

namespace Rollwright.TestKit;

/// <summary>A folder of one test's own, gone when the test is over, where the program is started as a person starts it.</summary>
public sealed class Workplace : IDisposable
{
    /// <summary>What names the library where no option does: not that of whoever runs the tests.</summary>
    public const string LibraryVariable = "ROLLWRIGHT_LIBRARY";

    public string Folder { get; } = Directory.CreateTempSubdirectory("rollwright").FullName;

    public string Library => Path.Combine(Folder, "library.db");

    public string Put(string name, string text)
    {
        File.WriteAllText(Path.Combine(Folder, name), text);
        return name;
    }

    public string Put(string name, byte[] bytes)
    {
        File.WriteAllBytes(Path.Combine(Folder, name), bytes);
        return name;
    }

    public string[] Files =>
        [
            .. Directory
                .GetFiles(Folder, "*", SearchOption.AllDirectories)
                .Select(file => Path.GetRelativePath(Folder, file))
                .Order(StringComparer.Ordinal),
        ];

    /// <summary>Runs the program in a process of its own; nothing is on its standard input.</summary>
    public (int Code, string Out, string Err) RunAlone(params IEnumerable<string> arguments)
    {
        using var process = Begun(arguments);
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output, error.Result);
    }

    /// <summary>Begins and does not wait, so that it can be killed; what it says is thrown away.</summary>
    public Process Start(params IEnumerable<string> arguments)
    {
        var process = Begun(arguments);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        return process;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    // The program lies beside the tests of a project that refers to it.
    private Process Begun(IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(
            "dotnet",
            [Path.Combine(AppContext.BaseDirectory, "rollwright.dll"), .. arguments]
        )
        {
            WorkingDirectory = Folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        start.Environment[LibraryVariable] = Library;
        var process = Process.Start(start)!;
        process.StandardInput.Close();
        return process;
    }
}
