using Rollwright.Audio;
using Rollwright.Audio.Wave;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Rolls;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Takes;
using Rollwright.Listening.Tests.Beside;
using Rollwright.Sound;
using Rollwright.TestKit;

namespace Rollwright.Listening.Tests.Hearing;

public class ListenerTests
{
    private const int Rate = 44_100;

    public static TheoryData<string> Rolls =>
        [.. RollTable.All.Where(roll => roll.Level <= 2).Select(roll => roll.Name)];

    public static TheoryData<int> Seeds => [21, 22, 23];

    /// <summary>The sampled banjo is outside the project: fluidsynth and a sound font.</summary>
    [Theory]
    [MemberData(nameof(Rolls))]
    public void The_fingers_of_a_roll_on_a_sampled_banjo_come_out_as_that_roll(string name)
    {
        var roll = RollTable.All.Single(roll => roll.Name == name);
        var plucks = Enumerable
            .Range(0, 4)
            .SelectMany(bar =>
                roll.Strings.Select((on, step) => (Onset: 0.5 + (0.15 * ((8 * bar) + step)), String: on))
            )
            .ToList();
        var sound = SampledBanjo.Sound(
            plucks.Select(pluck => (pluck.Onset, pluck.String, TuningTable.OpenG.KeyOf(pluck.String, 0)))
        );
        var heard = Listener.Listen(sound);
        heard.Notes.Select(note => note.String).Should().Equal(plucks.Select(pluck => (int?)pluck.String));
        heard.Notes.Select(note => note.Fret).Should().AllBeEquivalentTo(0);
        heard
            .Notes.Select(note => note.Finger)
            .Should()
            .Equal(Enumerable.Range(0, plucks.Count).Select(i => (RightFinger?)roll.Fingers[i % 8]));
        heard.Break!.Tempo.PerMinute.Should().BeApproximately(60 / 0.3, 4);
        heard.BarTimes[0].Should().BeApproximately(0.5, 0.03);
    }

    /// <summary>Our own string model: it proves less than another program's sound, and shows more of a real string.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void A_break_of_our_own_sound_is_written_out_and_can_be_played(int seed)
    {
        var meant = ChanceBreaks.Make(seed);
        var heard = Listener.Listen(Synth.Render(meant));
        var played = meant
            .Played()
            .Select(stroke => (At: stroke.At.ToDouble() * meant.Tempo.SecondsPerWhole, Key: meant.KeyOf(stroke.Stroke)))
            .ToList();
        // Both begin with their first note.
        var shift = heard.Notes[0].Onset - played[0].At;
        var left = heard.Notes.ToList();
        var right = 0;
        foreach (var (at, key) in played)
        {
            // As mir_eval counts notes: within 50 ms, the same semitone.
            var found = left.FirstOrDefault(note => note.Pitch == key && Math.Abs(note.Onset - shift - at) <= 0.05);
            if (found is not null && left.Remove(found))
                right++;
        }
        var f = 2.0 * right / (played.Count + heard.Notes.Length);
        f.Should().BeGreaterThan(0.93);
        // So slow, a finger may pluck at two steps running.
        Checker.Check(heard.Break!).Where(finding => finding.Rule != "finger-again").Should().BeEmpty();
    }

    [Theory]
    [InlineData("silence")]
    [InlineData("noise")]
    [InlineData("a hum")]
    [InlineData("a voice")]
    public void What_is_no_banjo_gives_no_notes(string kind)
    {
        var random = new Random(5);
        var sound = new float[20 * Rate];
        for (var i = 0; i < sound.Length; i++)
        {
            var t = (double)i / Rate;
            sound[i] = kind switch
            {
                "silence" => 0,
                "noise" => (random.NextSingle() - 0.5f) * 0.5f,
                "a hum" => 0.3f * MathF.Sin((float)(2 * Math.PI * 50 * t)),
                _ => Voice(t),
            };
        }
        Listener.Listen(new Samples(Rate, 1, sound)).Notes.Should().BeEmpty();
    }

    /// <summary>A speaker outside the project: espeak-ng (Debian).</summary>
    [Fact]
    public void Speech_gives_no_notes()
    {
        var folder = Directory.CreateTempSubdirectory();
        try
        {
            var wave = Path.Combine(folder.FullName, "speech.wav");
            Outside
                .Run(
                    "espeak-ng",
                    "-w",
                    wave,
                    "Put the middle finger on the third string, and play a forward roll. Then lift it again."
                )
                .Code.Should()
                .Be(0);
            Listener.Listen(WavReader.Read(File.ReadAllBytes(wave))).Notes.Should().BeEmpty();
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void Half_a_minute_and_its_edge_make_no_difference()
    {
        // Nine rolls a piece of sound is cut in, heard whole and in blocks of odd sizes.
        var sound = Synth.Render(ChanceBreaks.Make(24)).Channel(0);
        var blocks = new List<float[]>();
        for (var at = 0; at < sound.Length; at += 7_001)
            blocks.Add(sound[at..Math.Min(sound.Length, at + 7_001)]);
        Listener.Listen(blocks, Rate).Notes.Should().Equal(Listener.Listen([sound], Rate).Notes);
    }

    [Fact]
    public void It_can_be_stopped()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var listen = () => Listener.Listen([new float[Rate]], Rate, stop: stop.Token);
        listen.Should().Throw<OperationCanceledException>();
    }

    // A gliding tone of a voice's pitch under two moving formants, in syllables: no recording of a person is at hand.
    private static float Voice(double t)
    {
        var phase = (2 * Math.PI * 130 * t) + (6 * Math.Sin(2 * Math.PI * 1.7 * t));
        var (low, high) = (
            500 + (250 * Math.Sin(2 * Math.PI * 1.1 * t)),
            1500 + (600 * Math.Sin(2 * Math.PI * 0.7 * t))
        );
        var sum = 0.0;
        for (var k = 1; k <= 25; k++)
        {
            var f = 130.0 * k;
            sum += Math.Sin(k * phase) / k * (Peak(f, low) + (0.5 * Peak(f, high)));
        }
        var syllable = Math.Max(0, Math.Sin(2 * Math.PI * 3.5 * t));
        return (float)(0.3 * syllable * sum);
    }

    private static double Peak(double f, double middle) => 1 / (1 + Math.Pow((f - middle) / 120, 2));
}
