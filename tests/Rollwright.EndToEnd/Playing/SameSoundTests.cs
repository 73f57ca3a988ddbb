using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.Sound;
using Rollwright.Sound.Browser;
using Rollwright.Sound.Playing;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Playing;

/// <summary>The string model in the browser against the one in C#, which is itself held against outside programs.</summary>
public class SameSoundTests
{
    private const int Rate = 44_100;

    private static Break Demo(string name)
    {
        var file = Path.Combine(Places.Root, "data", "demo", $"{name}.abc");
        return Arranger.Arrange(AbcReader.Read(File.ReadAllBytes(file), file).Tunes[0]).Break;
    }

    public static TheoryData<string> Breaks => ["small", "wren-on-the-gatepost", "three-buckets-deep"];

    private static Break BreakOf(string name) => name == "small" ? SampleBreaks.SmallCapo2 : Demo(name);

    [Theory]
    [MemberData(nameof(Breaks))]
    public async Task The_browser_renders_the_samples_that_the_program_renders(string name)
    {
        var played = BreakOf(name);
        var frames = (int)Math.Min(20 * Rate, Timeline.Of(played, new()).Seconds * Rate);
        await using var page = await SoundPage.Open();
        var heard = await page.ThroughTheWorklet(
            PlayerScore.Write(played),
            Rate,
            frames,
            new { order = "play", from = 0 }
        );
        var wanted = Synth.Render(played, new() { Stereo = true, SampleRate = Rate }).Interleaved;
        for (var channel = 0; channel < 2; channel++)
        {
            var program = new float[frames];
            for (var i = 0; i < frames; i++)
                program[i] = wanted[(2 * i) + channel];
            // The program brings the whole to one level at the end; a player cannot, so only the scale is fitted.
            var (scale, correlation, difference) = Likeness(heard[channel], program);
            // Measured 2e-11 and 7e-6: what is left is the rounding of floats.
            scale.Should().BeGreaterThan(0);
            (1 - correlation).Should().BeLessThan(1e-9);
            difference.Should().BeLessThan(5e-5, "of full scale");
        }
    }

    private static (double Scale, double Correlation, double Difference) Likeness(float[] heard, float[] wanted)
    {
        double hw = 0,
            hh = 0,
            ww = 0;
        for (var i = 0; i < wanted.Length; i++)
        {
            hw += (double)heard[i] * wanted[i];
            hh += (double)heard[i] * heard[i];
            ww += (double)wanted[i] * wanted[i];
        }
        var scale = hw / hh;
        var difference = 0.0;
        for (var i = 0; i < wanted.Length; i++)
            difference = Math.Max(difference, Math.Abs((scale * heard[i]) - wanted[i]));
        return (scale, hw / Math.Sqrt(hh * ww), difference);
    }
}
