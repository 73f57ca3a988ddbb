using System.CommandLine.Parsing;
using System.Text.RegularExpressions;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>Every command that the README and the handbook show is run, as shown, in a folder of its own.</summary>
public sealed partial class ReadmeTests(ReadmeTests.Files files) : IClassFixture<ReadmeTests.Files>
{
    // A title that a command looks for; eight bars without repeats: the commands take as long as the tune, and a video of its strip
    // many times as long.
    private const string Tune =
        "X:1\nT:Short Wren\nC:Trad.\nM:4/4\nL:1/8\nQ:1/2=80\nK:G\nGABc dedc|BGAF G4|GABc dedc|BAGF G4|g2fg e2d2|B2AB G4|g2fg e2d2|BAGF G4|]\n";

    public static TheoryData<string> Handbook =>
        [
            .. Directory
                .GetFiles(Path.Combine(Places.Root, "docs", "handbook"), "*.md")
                .Where(file => Commands().IsMatch(File.ReadAllText(file)))
                .Select(file => Path.GetRelativePath(Places.Root, file).Replace('\\', '/')),
        ];

    // The README shows each command: the first time it is a program of its own, as a person runs it.
    [Fact]
    public void Every_command_of_the_readme_runs_and_each_starts_as_a_program_of_its_own()
    {
        using var place = files.Copied();
        var started = new HashSet<string>();
        foreach (var line in Shown("README.md"))
        {
            string[] words = [.. CommandLineParser.SplitCommandLine(line)];
            var alone = started.Add(words[0]) || IsAnsweredInBytes(words);
            var (code, _, error) = alone ? place.RunAlone(words) : place.Run(words);
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

    // A break without a place goes to standard output.
    private static bool IsAnsweredInBytes(string[] words) =>
        words[0] == "arrange" && !words.Any(word => word is "-o" or "--out-dir" or "--why");

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
            made.Put("tune.abc", Tune);
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
