using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>The file that says where the bars of a recorded take begin.</summary>
public class BarTimesTests
{
    [Theory]
    [InlineData("""{"starts": [1]}""", "no file of bar times")]
    [InlineData(
        """{"format": "rollwright bar times", "version": 1, "starts": [1, 1]}""",
        "start 2 does not come after start 1"
    )]
    [InlineData("""{"format": "rollwright bar times", "version": 1, "starts": [-1]}""", "start 1 is no time")]
    [InlineData("""{"format": "rollwright bar times", "version": 1, "starts": []}""", "mark at least one bar")]
    [InlineData("{\n\"format", "line 2, column")]
    public void Times_that_do_not_fit_are_told_in_one_line(string times, string words)
    {
        using var place = new Workplace();
        var wren = Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");
        place.Put("take.webm", "not a video");
        place.Put("times.json", times);
        var run = place.Run("lesson", wren, "-o", "x.html", "--video", "take.webm", "--bar-times", "times.json");
        run.Code.Should().Be(2);
        run.Err.Trim().Should().Contain(words).And.StartWith("times.json: ").And.NotContain("\n");
        File.Exists(Path.Combine(place.Folder, "x.html")).Should().BeFalse();
    }
}
