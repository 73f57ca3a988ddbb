using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>A learnt banjo at the command line; what is learnt is judged in the tests of Listening.</summary>
public class LearnBanjoTests
{
    private const string Tune = "X:1\nT:Test\nM:4/4\nL:1/8\nQ:1/2=60\nK:G\nGABc dedc|BGAF G4|]\n";

    [Fact]
    public void What_is_no_roll_and_what_is_no_banjo_is_refused_in_one_line()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Run("arrange", "tune.abc", "-o", "break.json").Code.Should().Be(0);
        place.Run("render", "break.json", "-o", "take.wav").Code.Should().Be(0);
        place.Put("banjo.txt", "what | values\ncents | 2\n");
        var unread = place.Run("listen", "take.wav", "--banjo", "banjo.txt");
        unread.Code.Should().Be(2);
        unread.Err.Should().Contain("banjo.txt:1").And.Contain("is missing");
        place.Run("listen", "take.wav", "--banjo", "none.txt").Err.Should().Contain("--learn none.txt");
        // Two bars of a tune do not sound every open string twice.
        var early = place.Run("listen", "take.wav", "--learn", "learnt.txt", "--until", "1");
        early.Code.Should().Be(1);
        early.Err.Should().Contain("play a slow roll over all of them");
        place.Run("listen", "take.wav", "take.wav", "--learn", "learnt.txt").Err.Should().Contain("give one");
    }
}
