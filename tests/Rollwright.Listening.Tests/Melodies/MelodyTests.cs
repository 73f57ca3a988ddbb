using Rollwright.Audio;
using Rollwright.Audio.Reading;
using Rollwright.Audio.Wave;
using Rollwright.Listening.Melodies;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.TestKit;

namespace Rollwright.Listening.Tests.Melodies;

public class MelodyTests
{
    private const int Rate = 22_050;
    private static readonly int[] Scale = [62, 64, 66, 67, 69, 71, 73, 74, 73, 71, 69, 67, 66, 64, 62, 62];

    [Theory]
    [InlineData("silence")]
    [InlineData("nothing")]
    [InlineData("white noise")]
    [InlineData("humming noise")]
    [InlineData("clicks")]
    [InlineData("a glide")]
    [InlineData("one note")]
    public void Where_there_is_no_melody_none_is_invented(string what)
    {
        var random = new Random(5);
        var low = 0.0;
        Func<int, double> sound = what switch
        {
            "white noise" => _ => (random.NextDouble() - 0.5) * 0.5,
            "humming noise" => _ => low = (0.97 * low) + (0.03 * (random.NextDouble() - 0.5)),
            "clicks" => i => i % 7_000 < 20 ? random.NextDouble() - 0.5 : 0,
            "a glide" => i => 0.3 * Math.Sin(2 * Math.PI * ((200.0 * i / Rate) + (30.0 * i / Rate * i / Rate))),
            "one note" => i => 0.3 * Math.Sin(2 * Math.PI * 440 * i / Rate),
            _ => _ => 0,
        };
        var heard = Listen(Sampled(what == "nothing" ? 0 : 10, sound));
        heard.Tune.Should().BeNull();
        heard.Notes.Should().BeEmpty();
    }

    [Theory]
    [InlineData("en-gb", 150)]
    [InlineData("en-us", 110)]
    [InlineData("de", 180)]
    public void Speech_is_no_melody(string voice, int speed)
    {
        var file = Path.GetTempFileName();
        try
        {
            // Speech by another program (Debian package espeak-ng).
            var (code, _, error) = Outside.Run(
                "espeak-ng",
                [
                    "-v",
                    voice,
                    "-s",
                    $"{speed}",
                    "-w",
                    file,
                    "Good evening, and welcome. Tonight we look at the right hand, one finger at a time. Put the thumb on the third string, and play it twice before you go on to the next bar.",
                ]
            );
            code.Should().Be(0, error);
            using var source = SoundFile.Open(File.OpenRead(file)).ToMono().AtRate(Rate);
            MelodyListener.Listen(source).Tune.Should().BeNull();
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(35)]
    [InlineData(-40)]
    public void Vibrato_slides_and_another_concert_pitch_do_not_hide_the_notes(double cents)
    {
        var heard = Listen(Sung(0.3, cents, vibrato: 30, slide: 0.03));
        heard.Notes.Select(note => note.Pitch).Should().Equal(Scale);
        heard.Cents.Should().BeApproximately(cents, 8);
    }

    [Theory]
    [InlineData(0.15)]
    [InlineData(0.3)]
    public void A_note_that_is_bowed_again_is_two_notes(double seconds) =>
        Listen(Sung(seconds, 0, vibrato: seconds > 0.2 ? 20 : 0, slide: 0))
            .Notes.Select(note => note.Pitch)
            .Should()
            .Equal(Scale);

    [Fact]
    public void The_tempo_is_found_and_the_metre_is_taken_as_given()
    {
        var heard = Listen(Sung(0.2, 0, 0, 0), time: new(6, 8));
        heard.Tune!.Time.Should().Be(new TimeSignature(6, 8));
        heard.Tune.Tempo!.Value.Unit.Should().Be(new Fraction(3, 8));
        heard.Tune.Tempo.Value.PerMinute.Should().BeApproximately(100, 1);
        heard.Tune.Key.Should().Be(new Key(new PitchName(Letter.D)));
        // Quarters of 0.8 s, whatever the metre is found to be.
        Listen(Sung(0.2, 0, 0, 0), tempo: 75).Tune!.Tempo!.Value.SecondsPerWhole.Should().BeApproximately(3.2, 0.06);
    }

    [Fact]
    public void The_same_sound_gives_the_same_tune()
    {
        var (one, other) = (Listen(Sung(0.25, 10, 20, 0)), Listen(Sung(0.25, 10, 20, 0)));
        one.Notes.Should().Equal(other.Notes);
        one.Tune!.Played().Should().Equal(other.Tune!.Played());
    }

    private static HeardMelody Listen(Samples sound, double? tempo = null, TimeSignature? time = null)
    {
        using var source = WavReader.Open(new MemoryStream(WavWriter.ToBytes(sound)));
        return MelodyListener.Listen(source, tempo, time);
    }

    private static Samples Sampled(double seconds, Func<int, double> sound) =>
        new(Rate, 1, [.. Enumerable.Range(0, (int)(seconds * Rate)).Select(i => (float)sound(i))]);

    // A scale up and down on a tone with partials: each note swells, dies a little, and may begin with a slide from below.
    private static Samples Sung(double seconds, double cents, double vibrato, double slide)
    {
        var phase = 0.0;
        return Sampled(
            (Scale.Length * seconds) + 0.5,
            i =>
            {
                var time = ((double)i / Rate) - 0.25;
                var note = (int)Math.Floor(time / seconds);
                if (note < 0 || note >= Scale.Length)
                    return 0;
                var since = time - (note * seconds);
                var bend = since < slide ? -(1 - (since / slide)) : 0;
                var swing = since < 0.08 ? 0 : vibrato / 100 * Math.Sin(2 * Math.PI * 5.5 * since);
                phase += 440 * Math.Pow(2, (Scale[note] + bend + swing + (cents / 100) - 69) / 12) / Rate;
                var level = Math.Min(1, since / 0.015) * Math.Min(1, (seconds - since) / 0.02);
                return 0.2 * level * Enumerable.Range(1, 6).Sum(k => Math.Sin(2 * Math.PI * k * phase) / k);
            }
        );
    }
}
