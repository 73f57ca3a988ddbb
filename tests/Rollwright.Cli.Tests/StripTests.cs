using System.Text.Json;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>The strip of tab from the command line, its videos read by ffprobe, an outside program.</summary>
public class StripTests
{
    // Three bars of the four: seconds at which they begin.
    private const string Times =
        """{"format": "rollwright bar times", "version": 1, "starts": [0.52, 1.93, 3.31], "end": 4.72}""";

    private const string Tune =
        "X:1\nT:Test\nC:Trad.\nM:4/4\nL:1/8\nQ:1/2=80\nK:G\nGABc dedc|BGAF G4|GABc dedc|BAGF G4|]\n";

    [Fact]
    public void Another_program_reads_width_length_and_alpha_of_the_videos()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Put("times.json", Times);
        Outside.Run("ffprobe", "-version").Code.Should().Be(0);
        string[] asked = ["lesson", "tune.abc", "--out-dir", "out", "--only", "strip", "--strip-width", "640"];
        place.Run([.. asked, "--bar-times", "times.json"]).Should().Be((0, "", ""));
        place
            .Files.Should()
            .Contain([
                "out/strip/frames/00001.png",
                "out/strip/strip.ffconcat",
                "out/strip/strip.mp4",
                "out/strip/strip.svg",
                "out/strip/strip.webm",
            ]);
        foreach (var video in new[] { "strip.webm", "strip.mp4" })
        {
            var read = Probe(Path.Combine(place.Folder, "out", "strip", video));
            var stream = read.GetProperty("streams")[0];
            stream.GetProperty("width").GetInt32().Should().Be(640, video);
            stream.GetProperty("pix_fmt").GetString().Should().Be("yuv420p", video);
            double.Parse(
                    read.GetProperty("format").GetProperty("duration").GetString()!,
                    System.Globalization.CultureInfo.InvariantCulture
                )
                .Should()
                .BeApproximately(4.72, 0.05, video);
            if (video == "strip.webm")
                stream.GetProperty("tags").GetProperty("alpha_mode").GetString().Should().Be("1");
        }
        // A second time nothing is anybody's but the program's.
        place.Run([.. asked, "--bar-times", "times.json"]).Should().Be((0, "", ""));
    }

    [Fact]
    public void The_usual_lesson_has_no_strip_and_an_hour_s_take_no_video()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Put("times.json", Times.Replace("4.72", "4000", StringComparison.Ordinal));
        place.Run("lesson", "tune.abc", "--out-dir", "usual").Code.Should().Be(0);
        place.Files.Should().NotContain(file => file.Contains("strip"));
        var (code, _, error) = place.Run(
            "lesson",
            "tune.abc",
            "--out-dir",
            "out",
            "--only",
            "strip",
            "--bar-times",
            "times.json"
        );
        code.Should().Be(0);
        error.TrimEnd().Should().NotContain("\n").And.Match("strip: strip.webm and strip.mp4 are not made*30 at most*");
        place.Files.Should().Contain("out/strip/strip.ffconcat").And.NotContain("out/strip/strip.webm");
    }

    [Theory]
    [InlineData("--strip-width 100", "--strip-width 100: *320 to 3840*")]
    [InlineData("--strip-plate 0.1", "--strip-plate 0.1: *0.4 to 1*")]
    [InlineData("--strip-form thin", "--strip-form: 'thin' is neither full nor low*")]
    public void What_cannot_be_is_said_in_one_line(string asked, string line)
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        var (code, _, error) = place.Run([
            "lesson",
            "tune.abc",
            "--out-dir",
            "out",
            "--only",
            "strip",
            .. asked.Split(' '),
        ]);
        code.Should().Be(2);
        error.TrimEnd().Should().NotContain("\n").And.Match(line);
    }

    private static JsonElement Probe(string path)
    {
        var (code, output, error) = Outside.Run(
            "ffprobe",
            "-v",
            "error",
            "-show_streams",
            "-show_format",
            "-of",
            "json",
            path
        );
        code.Should().Be(0, error);
        return JsonDocument.Parse(output).RootElement;
    }
}
