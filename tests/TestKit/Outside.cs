using System.Diagnostics;

namespace Rollwright.TestKit;

/// <summary>Outside programs that judge our work: abc2midi, xmllint, pdftotext and their like.</summary>
public static class Outside
{
    /// <summary>Runs a program; skips the running test with a notice where it is not installed.</summary>
    /// <returns>Exit code, standard output, standard error.</returns>
    public static (int Code, string Out, string Err) Run(string program, params IEnumerable<string> arguments)
    {
        Assert.SkipUnless(Has(program), $"needs the program '{program}' (see ./test), which is not installed");
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output, error.Result);
    }

    public static bool Has(string program) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator)
            .Any(folder => File.Exists(Path.Combine(folder, program)));
}
