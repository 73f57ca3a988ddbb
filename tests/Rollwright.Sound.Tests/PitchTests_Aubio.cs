using Rollwright.Audio.Wave;
using Rollwright.Banjo.Tunings;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

/// <summary>The outside judge is aubiopitch (Debian package aubio-tools), by its method 'yin' (de Cheveigné and Kawahara 2002).</summary>
public class PitchTests_Aubio
{
    public static TheoryData<int> EveryString => PitchTests.EveryString;

    [Theory]
    [MemberData(nameof(EveryString))]
    public void Aubio_hears_every_fret_of_the_neck_within_five_cents(int banjoString)
    {
        // A fret a second: each note stops the one before it.
        var frets = Enumerable.Range(0, Neck.LastFret + 1).Where(fret => Neck.HasFret(banjoString, fret)).ToList();
        var played = Ear.Of(frets.Count, frets.Select((fret, beat) => Ear.Plucked(banjoString, fret, beat)));
        var file = Path.GetTempFileName() + ".wav";
        try
        {
            File.WriteAllBytes(file, WavWriter.ToBytes(Synth.Render(played)));
            var (code, text, error) = Outside.Run(
                "aubiopitch",
                ["-i", file, "-p", "yin", "-B", "2048", "-H", "256", "-u", "Hz"]
            );
            code.Should().Be(0, error);
            var heard = text.Split('\n', StringSplitOptions.RemoveEmptyEntries)
                .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries))
                .Select(cells => (At: double.Parse(cells[0]), Hz: double.Parse(cells[1])))
                .ToList();
            for (var beat = 0; beat < frets.Count; beat++)
            {
                var within = heard
                    .Where(frame => frame.At > beat + 0.15 && frame.At < beat + 0.6)
                    .Select(frame => frame.Hz)
                    .Order()
                    .ToList();
                var wanted = Ear.Hz(Ear.OpenG.SoundingKeyOf(banjoString, frets[beat]));
                Ear.Cents(within[within.Count / 2], wanted)
                    .Should()
                    .BeInRange(-5, 5, $"string {banjoString} fret {frets[beat]}");
            }
        }
        finally
        {
            File.Delete(file);
        }
    }
}
