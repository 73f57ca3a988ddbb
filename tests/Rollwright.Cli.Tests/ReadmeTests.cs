using System.CommandLine.Parsing;
using System.Text.RegularExpressions;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>
/// Every command that the README and the handbook show is run, as shown, in a folder of its own: those of the README, which show each
/// command, in processes of their own, as a person runs them.
/// </summary>
public sealed partial class ReadmeTests(ReadmeTests.Files files) : IClassFixture<ReadmeTests.Files>
{
    private const string Readme = "README.md";

    public static TheoryData<string> Handbook =>
        [
            .. Directory
                .GetFiles(Path.Combine(Places.Root, "docs", "handbook"), "*.md")
                .Where(file => Commands().IsMatch(File.ReadAllText(file)))
                .Select(file => Path.GetRelativePath(Places.Root, file).Replace('\\', '/')),
        ];

    [Fact]
    public void Every_command_of_the_readme_runs_as_a_program_of_its_own()
    {
        using var place = files.Copied();
        foreach (var line in Shown(Readme))
        {
            var (code, _, error) = place.RunAlone(CommandLineParser.SplitCommandLine(line));
            code.Should().Be(0, $"{line}: {error}");
        }
    }

    [Theory]
    [MemberData(nameof(Handbook))]
    public void Every_command_of_the_handbook_runs(string text)
    {
        using var place = files.Copied();
        foreach (var line in Shown(text))
        {
            var (code, _, error) = place.Run(CommandLineParser.SplitCommandLine(line));
            code.Should().Be(0, $"{line}: {error}");
        }
    }

    private static List<string> Shown(string text)
    {
        var shown = Commands().Matches(File.ReadAllText(Path.Combine(Places.Root, text)));
        shown.Should().NotBeEmpty();
        return
        [
            .. shown
                .Select(command => command.Groups["command"].Value.Trim())
                .Select(line =>
                    line.Replace("*.abc", "tune.abc", StringComparison.Ordinal)
                        .Replace("~/tunes", "tune.abc", StringComparison.Ordinal)
                )
                .Where(line => !line.StartsWith("serve", StringComparison.Ordinal)),
        ];
    }

    /// <summary>What the commands are given: a tune, its break in the forms that are read, and its sound; made once.</summary>
    public sealed class Files : IDisposable
    {
        private readonly Workplace made = new();

        public Files()
        {
            File.Copy(
                Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc"),
                Path.Combine(made.Folder, "tune.abc")
            );
            foreach (var form in new[] { "json", "mid", "tab" })
                made.Run("arrange", "tune.abc", "-o", $"tune.{form}").Code.Should().Be(0);
            made.Run("render", "tune.json", "-o", "take.wav").Code.Should().Be(0);
        }

        public void Dispose() => made.Dispose();

        internal Workplace Copied()
        {
            var copy = new Workplace();
            foreach (var file in made.Files)
                File.Copy(Path.Combine(made.Folder, file), Path.Combine(copy.Folder, file));
            return copy;
        }
    }

    [GeneratedRegex(
        @"^rollwright (?<command>[^#\n]+)",
        RegexOptions.Multiline | RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex Commands();
}
