using System.Text.RegularExpressions;
using Rollwright.TestKit;

namespace Rollwright.HouseRules;

public partial class ReadmeTests
{
    public static TheoryData<string> Texts =>
        [
            "README.md",
            .. Directory
                .GetFiles(Path.Combine(Places.Root, "docs", "handbook"), "*.md")
                .Where(file => Commands().IsMatch(File.ReadAllText(file)))
                .Select(file => Path.GetRelativePath(Places.Root, file).Replace('\\', '/')),
        ];

    // Every command that the README and the handbook show is run, as shown, in a folder of its own.
    [Theory]
    [MemberData(nameof(Texts))]
    public void Every_command_that_is_shown_runs(string text)
    {
        var folder = Directory.CreateTempSubdirectory("rollwright-readme").FullName;
        try
        {
            File.Copy(
                Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc"),
                Path.Combine(folder, "tune.abc")
            );
            Run(folder, "arrange tune.abc -o tune.json").Should().Be(0);
            Run(folder, "arrange tune.abc -o tune.mid").Should().Be(0);
            Run(folder, "arrange tune.abc -o tune.tab").Should().Be(0);
            Run(folder, "render tune.json -o take.wav").Should().Be(0);
            var shown = Commands().Matches(File.ReadAllText(Path.Combine(Places.Root, text)));
            shown.Should().NotBeEmpty();
            foreach (Match command in shown)
            {
                var line = command
                    .Groups["command"]
                    .Value.Trim()
                    .Replace("*.abc", "tune.abc", StringComparison.Ordinal)
                    .Replace("~/tunes", "tune.abc", StringComparison.Ordinal);
                if (!line.StartsWith("serve", StringComparison.Ordinal))
                    Run(folder, line).Should().Be(0, line);
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static int Run(string folder, string arguments)
    {
        var program = Path.Combine(AppContext.BaseDirectory, "rollwright.dll");
        var start = new System.Diagnostics.ProcessStartInfo("dotnet", $"\"{program}\" {arguments}")
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            UseShellExecute = false,
            RedirectStandardError = true,
        };
        // Not the library of whoever runs the tests.
        start.Environment["ROLLWRIGHT_LIBRARY"] = Path.Combine(folder, "library.db");
        using var process = System.Diagnostics.Process.Start(start)!;
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode;
    }

    [GeneratedRegex(
        @"^rollwright (?<command>[^#\n]+)",
        RegexOptions.Multiline | RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex Commands();
}
