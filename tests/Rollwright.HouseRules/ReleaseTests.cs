using Rollwright.TestKit;

namespace Rollwright.HouseRules;

/// <summary>The script that makes a release refuses what it cannot make before it begins; <c>build/try</c> tries what it made.</summary>
public class ReleaseTests
{
    [Theory]
    [InlineData("build/release: 'new' is no version: three numbers, such as 1.2.3.", "--version", "new")]
    [InlineData("build/release: 'amiga' is none of: linux-x64", "--only", "deb,amiga")]
    [InlineData("build/release: '--fast' is neither --version nor --only.", "--fast")]
    public void What_cannot_be_made_is_refused_in_one_line(string says, params string[] asked)
    {
        var (code, _, error) = Outside.Run("bash", [Path.Combine(Places.Root, "build", "release"), .. asked]);
        code.Should().Be(2);
        error.TrimEnd().Should().StartWith(says).And.NotContain("\n");
    }
}
