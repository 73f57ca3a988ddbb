using Rollwright.Audio.Wave;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

/// <summary>The outside judge is aubiopitch (Debian package aubio-tools), by its yinfft method.</summary>
public class PitchTests_Aubio
{
    [Theory]
    [InlineData(1, 0, 5, 12, 17)]
    [InlineData(2, 0, 3, 8, 12)]
    [InlineData(3, 0, 2, 4, 9)]
    [InlineData(4, 0, 2, 5, 12)]
    [InlineData(5, 0, 7, 9, 12)]
    public void Aubio_hears_every_string_within_five_cents(int banjoString, params int[] frets)
    {
        foreach (var fret in frets)
        {
            var file = Path.GetTempFileName() + ".wav";
            try
            {
                File.WriteAllBytes(file, WavWriter.ToBytes(Ear.Note(banjoString, fret, 1)));
                var (code, text, error) = Outside.Run(
                    "aubiopitch",
                    ["-i", file, "-p", "yinfft", "-B", "4096", "-H", "256", "-u", "Hz"]
                );
                code.Should().Be(0, error);
                var heard = text.Split('\n', StringSplitOptions.RemoveEmptyEntries)
                    .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries))
                    .Select(cells => (At: double.Parse(cells[0]), Hz: double.Parse(cells[1])))
                    .Where(frame => frame.At is > 0.1 and < 0.6)
                    .Select(frame => frame.Hz)
                    .Order()
                    .ToList();
                var wanted = Ear.Hz(Ear.OpenG.SoundingKeyOf(banjoString, fret));
                Ear.Cents(heard[heard.Count / 2], wanted)
                    .Should()
                    .BeInRange(-5, 5, $"string {banjoString} fret {fret}");
            }
            finally
            {
                File.Delete(file);
            }
        }
    }
}
