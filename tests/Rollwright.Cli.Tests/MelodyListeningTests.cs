using Rollwright.Audio.Wave;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

public class MelodyListeningTests
{
    [Fact]
    public void A_line_alone_becomes_a_tune_that_can_be_arranged()
    {
        using var place = new Workplace();
        place.Put("my-tune.wav", WavWriter.ToBytes(Line()));
        var (code, output, error) = place.RunAlone("listen", "my-tune.wav", "--melody", "--metre", "4/4");
        (code, error).Should().Be((0, ""));
        output.Should().StartWith("%abc-2.1\nX:1\nT:my tune\nM:4/4\nL:1/8\n").And.Contain("K:G\n");
        place.Run("listen", "my-tune.wav", "--melody", "-o", "tune.abc").Code.Should().Be(0);
        place.Run("arrange", "tune.abc", "-o", "tune.tab").Code.Should().Be(0);
    }

    [Theory]
    [InlineData("--melody", 1, "take.wav: no melody found; record one fiddle, whistle or voice alone and near")]
    [InlineData("--melody --metre five", 2, "--metre five: no metre that is known; write it as 4/4 or 6/8")]
    [InlineData("--melody --tempo 5", 2, "--tempo 5: give beats a minute from 20 to 400")]
    public void What_cannot_be_answered_is_said_in_one_line(string arguments, int expected, string message)
    {
        using var place = new Workplace();
        place.Put("take.wav", WavWriter.ToBytes(new(22_050, 1, new float[22_050])));
        var (code, output, error) = place.Run(["listen", "take.wav", .. arguments.Split(' ')]);
        (code, output, error.TrimEnd()).Should().Be((expected, "", message));
    }

    private static Audio.Samples Line()
    {
        int[] keys = [67, 69, 71, 72, 74, 71, 67, 71, 69, 66, 62, 66, 67, 71, 67, 67];
        const int rate = 22_050;
        var values = new float[(int)(rate * ((keys.Length * 0.2) + 0.6))];
        for (var i = 0; i < values.Length; i++)
        {
            var time = ((double)i / rate) - 0.3;
            var note = (int)Math.Floor(time / 0.2);
            if (note < 0 || note >= keys.Length)
                continue;
            var since = time - (note * 0.2);
            var level = Math.Min(1, since / 0.01) * Math.Min(1, (0.2 - since) / 0.02);
            var pitch = 440 * Math.Pow(2, (keys[note] - 69) / 12.0);
            for (var k = 1; k <= 5; k++)
                values[i] += (float)(0.2 / k * level * Math.Sin(2 * Math.PI * k * pitch * since));
        }
        return new(rate, 1, values);
    }
}
