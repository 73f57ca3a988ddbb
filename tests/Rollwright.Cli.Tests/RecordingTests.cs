using System.Text.Json;
using Rollwright.Audio.Wave;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>Recordings of every form and fault, as <c>listen</c> takes them; ffmpeg makes the forms.</summary>
public class RecordingTests
{
    [Theory]
    [InlineData("wav")]
    [InlineData("flac")]
    [InlineData("mp3")]
    [InlineData("ogg")]
    [InlineData("opus")]
    [InlineData("m4a")]
    public void The_same_take_in_another_form_is_the_same_take(string ending)
    {
        using var place = new Workplace();
        place.Put("tone.wav", WavWriter.ToBytes(Plucks(48_000, 0.5f)));
        var (made, _, fault) = Outside.Run(
            "ffmpeg",
            "-v",
            "error",
            "-y",
            "-i",
            Path.Combine(place.Folder, "tone.wav"),
            Path.Combine(place.Folder, $"take.{ending}")
        );
        made.Should().Be(0, fault);
        // By what it holds, not by its name.
        File.Move(Path.Combine(place.Folder, $"take.{ending}"), Path.Combine(place.Folder, "take.x"), overwrite: true);
        var (code, output, error) = place.Run("listen", "take.x", "--json");
        code.Should().Be(0, error);
        Onsets(output).Should().HaveCount(8);
        foreach (var (heard, expected) in Onsets(output).Zip(Enumerable.Range(0, 8).Select(i => 0.5 + (i * 0.3))))
            heard.Should().BeApproximately(expected, 0.02);
    }

    [Theory]
    [InlineData("empty", "take: byte 0: the file is empty; record or copy it again")]
    [InlineData(
        "letter",
        "take: no sound is found in it (ffmpeg: *); give a recording as WAV, MP3, Ogg Vorbis or Opus"
    )]
    [InlineData("no frames", "take: there is no sound in what was asked for; record it again, or ask for another part")]
    public void What_holds_no_sound_is_refused_in_one_line(string what, string message)
    {
        Assert.SkipUnless(Outside.Has("ffmpeg"), "needs the program 'ffmpeg' (see ./test), which is not installed");
        using var place = new Workplace();
        place.Put(
            "take",
            what switch
            {
                "empty" => [],
                "letter" => "Dear friends of the banjo, this is a letter."u8.ToArray(),
                _ => WavWriter.ToBytes(new(44_100, 2, [])),
            }
        );
        var (code, output, error) = place.Run("listen", "take");
        code.Should().Be(2);
        output.Should().BeEmpty();
        error.TrimEnd().Should().Match(message).And.NotContain("\n");
    }

    [Fact]
    public void What_is_amiss_with_a_recording_is_said_in_a_line_each_and_the_rest_is_heard()
    {
        using var place = new Workplace();
        var whole = WavWriter.ToBytes(Plucks(8_000, 3));
        place.Put("take.wav", whole[..(whole.Length * 3 / 4)]);
        var (code, output, error) = place.Run("listen", "take.wav", "--json");
        code.Should().Be(0, error);
        Onsets(output).Should().HaveCountGreaterThan(3);
        var lines = error.TrimEnd().Split('\n');
        lines.Should().HaveCountGreaterThan(3, "what was heard is said behind it");
        lines[0].Should().Be("take.wav: the file ends at 0:02.2 of 0:03.0; what is there is heard");
        lines[1].Should().StartWith("take.wav: recorded at 8000 frames a second, so nothing above 4 kHz is in it");
        lines[2].Should().MatchRegex(@"^take\.wav: \d+(\.\d+)? % is clipped, first at 0:00\.5; record it softer$");
    }

    [Fact]
    public void A_part_can_be_asked_for_and_a_wrong_one_is_refused()
    {
        using var place = new Workplace();
        place.Put("take.wav", WavWriter.ToBytes(Plucks(44_100, 0.5f)));
        var onsets = Onsets(place.Run("listen", "take.wav", "--json", "--from", "0:01", "--until", "0:01.995").Out);
        // What begins with the cut itself is another matter.
        onsets.Should().HaveCountGreaterThanOrEqualTo(3);
        foreach (var (heard, expected) in onsets.Zip([1.1, 1.4, 1.7]))
            heard.Should().BeApproximately(expected, 0.02);
        var (code, _, error) = place.Run("listen", "take.wav", "--from", "0:02", "--until", "0:01");
        (code, error.TrimEnd()).Should().Be((2, "--until 0:01.0 is not after --from 0:02.0; give a later time"));
        place.Run("listen", "take.wav", "--from", "soon").Err.Should().StartWith("--from soon: no time; write");
    }

    [Fact]
    public void A_part_is_slowed_and_comes_as_often_as_asked_for()
    {
        using var place = new Workplace();
        place.Put("take.wav", WavWriter.ToBytes(Plucks(44_100, 0.5f)));
        var (code, _, error) = place.Run([
            "slow",
            "take.wav",
            "--to",
            "50",
            "--from",
            "0.4",
            "--until",
            "1.4",
            "--loop",
            "3",
            "-o",
            "slow.wav",
        ]);
        (code, error.TrimEnd()).Should().Be((0, "slow.wav: 6.0 s"));
        WavReader
            .Read(File.ReadAllBytes(Path.Combine(place.Folder, "slow.wav")))
            .Frames.Should()
            .BeCloseTo(6 * 44_100, 10);
    }

    [Theory]
    [InlineData("--to 20 -o slow.wav", "--to 20: give a tempo from 25 to 200 per cent")]
    [InlineData("--to 60 --loop 0 -o slow.wav", "--loop 0: give a count from 1 to 100")]
    [InlineData("--to 60 -o slow.mp3", "slow.mp3: slowed sound is written as WAV; give a name that ends with .wav")]
    [InlineData("--from 9 -o slow.wav", "take.wav: there is no sound in what was asked for; ask for another part")]
    public void What_cannot_be_slowed_is_refused_in_one_line(string arguments, string message)
    {
        using var place = new Workplace();
        place.Put("take.wav", WavWriter.ToBytes(Plucks(8_000, 0.5f)));
        var (code, _, error) = place.Run(["slow", "take.wav", .. arguments.Split(' ')]);
        (code, error.TrimEnd()).Should().Be((2, message));
        place.Files.Should().Equal("take.wav");
    }

    private static double[] Onsets(string output)
    {
        using var told = JsonDocument.Parse(output);
        return
        [
            .. told
                .RootElement.GetProperty("notes")
                .EnumerateArray()
                .Select(note => note.GetProperty("onset").GetDouble()),
        ];
    }

    // Eight struck notes of a scale from 0.5 s on, 0.3 s apart; partials that die away as on a string.
    private static Audio.Samples Plucks(int rate, float gain)
    {
        int[] keys = [62, 64, 66, 67, 69, 71, 73, 74];
        var values = new float[3 * rate];
        for (var note = 0; note < keys.Length; note++)
        {
            var pitch = 440 * Math.Pow(2, (keys[note] - 69) / 12.0);
            var start = (int)((0.5 + (note * 0.3)) * rate);
            for (var i = start; i < Math.Min(values.Length, start + (0.29 * rate)); i++)
            for (var k = 1; k <= 6 && k * pitch < 0.45 * rate; k++)
            {
                var time = (double)(i - start) / rate;
                values[i] += (float)(
                    gain * 0.4 / k * Math.Exp(-time * (6 + (2 * k))) * Math.Sin(2 * Math.PI * k * pitch * time)
                );
            }
        }
        return new(rate, 1, values);
    }
}
