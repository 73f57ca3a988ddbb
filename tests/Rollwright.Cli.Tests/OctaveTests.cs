using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

public class OctaveTests
{
    private const string Tune = "X:1\nT:Wide\nM:4/4\nL:1/8\nK:G\nD2G2 B2d2|g2b2 g2d2|B2G2 A2F2|G4 G4|\n";

    [Theory]
    [InlineData("fiddle", "at the fiddle's pitch")]
    [InlineData("below", "an octave below the fiddle")]
    public void The_octave_is_asked_for_by_name_and_said_in_words(string name, string words)
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        var (code, _, error) = place.Run("arrange", "tune.abc", "--octave", name, "-o", "tune.tab");
        code.Should().Be(0, error);
        error.Should().Contain(words);
    }

    [Theory]
    [InlineData("two-below", "they do an octave below the fiddle")]
    [InlineData("middle", "known are two-below, below, fiddle, above")]
    public void An_octave_that_cannot_be_is_refused_in_one_line_with_those_that_can(string name, string words)
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        foreach (var command in new[] { "arrange", "advise" })
        {
            var (code, output, error) = place.Run(command, "tune.abc", "--octave", name);
            code.Should().Be(2);
            output.Should().BeEmpty();
            error.Trim().Should().Contain(words).And.NotContain("\n");
        }
    }
}
