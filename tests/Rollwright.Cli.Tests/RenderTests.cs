using Rollwright.Audio.Loudness;
using Rollwright.Audio.Wave;
using Rollwright.Formats.Json;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>Breaks as sound: what is asked for is what the file holds; what cannot be is one line before any work.</summary>
public class RenderTests
{
    // Half = 80: a bar of the sample lasts 1.5 s; after the end it rings for 1.5 s.
    private const double Bar = 1.5;
    private const double Ringing = 1.5;

    [Theory]
    [InlineData("", (0.25 + 8 + 4) * Bar)]
    [InlineData("--tempo 160", (0.25 + 8 + 4) * Bar / 2)]
    [InlineData("--tempo 1/4=80", (0.25 + 8 + 4) * Bar * 2)]
    [InlineData("--bars 1-2", 2 * Bar)]
    [InlineData("--bars 1-2 --times 3", 6 * Bar)]
    // The pickup stands in bar 2 when it comes again.
    [InlineData("--bars 0-2 --times 3", 6.25 * Bar)]
    [InlineData("--phrase A1", 2.25 * Bar)]
    [InlineData("--phrase B1", 2 * Bar)]
    [InlineData("--phrase 4", 2 * Bar)]
    // The second ending is a phrase of one bar.
    [InlineData("--phrase a3", Bar)]
    [InlineData("--bars 1-2 --band all --count-in 2", 4 * Bar)]
    [InlineData("--bars 0-2 --count-in 1", (1 + 0.75 + 2.25) * Bar)]
    [InlineData("--bars 1-2 --rest-every 1 --band bass --level bass=3 drone=-9 --bits 24 --mono --rate 48000", 2 * Bar)]
    public void A_sound_lasts_as_long_as_what_was_asked_for(string request, double seconds)
    {
        using var place = new Workplace();
        place.Put("tune.json", JsonWriter.Write(SampleBreaks.Small));
        var asked = request.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var (code, output, error) = place.Run(["render", "tune.json", "-o", "tune.wav", .. asked]);
        code.Should().Be(0, error);
        output.Should().BeEmpty();
        var sound = WavReader.Read(File.ReadAllBytes(Path.Combine(place.Folder, "tune.wav")));
        sound.Duration.TotalSeconds.Should().BeApproximately(seconds + Ringing, 0.001);
        sound.Channels.Should().Be(request.Contains("--mono", StringComparison.Ordinal) ? 1 : 2);
        error.Should().Contain($"tune.wav: {seconds + Ringing:0.0} s; loudness -").And.Contain("true peak -1.5 dB");
    }

    [Fact]
    public void Stems_are_one_file_a_part_and_together_they_are_the_mix()
    {
        using var place = new Workplace();
        place.Put("tune.json", JsonWriter.Write(SampleBreaks.Small));
        string[] request = ["render", "tune.json", "--bars", "1-2", "--band", "bass,click", "--bits", "float", "-o"];
        place.Run([.. request, "tune.wav"]).Code.Should().Be(0);
        place.Run([.. request, "tune.wav", "--stems"]).Code.Should().Be(0);
        place.Files.Should().Equal("tune-banjo.wav", "tune-bass.wav", "tune-click.wav", "tune.json", "tune.wav");
        var mix = Read(place, "tune.wav");
        var stems = new[] { "banjo", "bass", "click" }.Select(name => Read(place, $"tune-{name}.wav")).ToList();
        for (var i = 0; i < mix.Length; i++)
            stems.Sum(stem => stem[i]).Should().BeApproximately(mix[i], 1e-5f);
    }

    [Theory]
    [InlineData("wren-on-the-gatepost")]
    [InlineData("lantern-on-the-millrace")]
    [InlineData("three-buckets-deep")]
    public void The_banjo_stands_out_over_each_of_the_band_by_about_six_loudness_units(string tune)
    {
        using var place = new Workplace();
        var abc = Path.Combine(Places.Root, "data", "demo", $"{tune}.abc");
        place.Run("arrange", abc, "-o", "tune.json").Code.Should().Be(0);
        place.Run("render", "tune.json", "-o", "x.wav", "--band", "all", "--stems").Code.Should().Be(0);
        double Loudness(string part) =>
            IntegratedLoudness.Of(WavReader.Read(File.ReadAllBytes(Path.Combine(place.Folder, $"x-{part}.wav"))));
        var banjo = Loudness("banjo");
        foreach (var part in new[] { "bass", "guitar", "chop" })
            (banjo - Loudness(part)).Should().BeInRange(4.5, 8, part);
        (banjo - Loudness("click")).Should().BeInRange(8, 13);
    }

    [Fact]
    public void An_opus_file_decodes_to_the_same_length_and_does_not_clip()
    {
        using var place = new Workplace();
        place.Put("tune.json", JsonWriter.Write(SampleBreaks.Small));
        place.Run("render", "tune.json", "--band", "all", "-o", "tune.opus").Code.Should().Be(0);
        var opus = Path.Combine(place.Folder, "tune.opus");
        var (code, _, error) = Outside.Run(
            "opusdec",
            "--quiet",
            "--float",
            opus,
            Path.Combine(place.Folder, "back.wav")
        );
        code.Should().Be(0, error);
        var sound = WavReader.Read(File.ReadAllBytes(Path.Combine(place.Folder, "back.wav")));
        sound.Duration.TotalSeconds.Should().BeApproximately((12.25 * Bar) + Ringing, 0.001);
        (20 * Math.Log10(TruePeak.Of(sound))).Should().BeLessThanOrEqualTo(-1);
    }

    [Fact]
    public void Arrange_sounds_its_break_by_the_ending_of_the_file()
    {
        using var place = new Workplace();
        place.Put("tune.abc", "X:1\nT:Test\nM:4/4\nL:1/8\nK:G\nGABc dedc|G8|\n");
        place.Run("arrange", "tune.abc", "-o", "tune.opus").Code.Should().Be(0);
        place.Run("arrange", "tune.abc", "-o", "tune.wav").Code.Should().Be(0);
        var info = Outside.Run("opusinfo", Path.Combine(place.Folder, "tune.opus"));
        info.Code.Should().Be(0);
        info.Out.Should().Contain("TITLE=Test");
    }

    [Theory]
    [InlineData("--tempo 0", "a tempo is more than 0")]
    [InlineData("--tempo -5", "a tempo is more than 0")]
    [InlineData("--tempo 10000", "at most 1000 units a minute")]
    [InlineData("--tempo fast", "a tempo is more than 0")]
    [InlineData("--rate 11", "the sample rate is 44100 or 48000")]
    [InlineData("--bars 3-2", "write 5 or 5-8")]
    [InlineData("--bars 40", "the break has bars 0 to")]
    [InlineData("--phrase A9", "the phrases are A1 to A3, B1, or 1 to 4")]
    [InlineData("--phrase Q1", "the phrases are A1 to A3")]
    [InlineData("--times 0", "Times through are 1 to 100")]
    [InlineData("--count-in 3", "A count-in is 0 to 2 bars")]
    [InlineData("--rest-every 0", "Bars between rests are 1 to 16")]
    [InlineData("--band tuba", "'tuba' is not in the band; known are bass, guitar, chop, click")]
    [InlineData("--level bass=loud", "such as bass=-3")]
    [InlineData("--level bass=99", "A level is -60 to 20 dB")]
    [InlineData("--bits 8", "a wav holds 16, 24 or float")]
    // At 48 kHz as floats this would be 147 GB.
    [InlineData("--tempo 1 --times 100", "at most 1800 s are made")]
    public void What_cannot_be_sounded_is_one_line_and_no_file(string request, string answer)
    {
        using var place = new Workplace();
        place.Put("tune.json", JsonWriter.Write(SampleBreaks.Small));
        var (code, _, error) = place.Run(["render", "tune.json", "-o", "tune.wav", .. request.Split(' ')]);
        code.Should().Be(2);
        error.Should().Contain(answer).And.NotContain("   at ").And.NotContain("Parameter");
        error.Trim().Should().NotContain("\n");
        place.Files.Should().Equal("tune.json");
    }

    [Fact]
    public void A_break_without_notes_and_bars_without_notes_are_refused()
    {
        using var place = new Workplace();
        var silent = SampleBreaks.Small with
        {
            Bars = SampleBreaks.Small.Bars.SetItem(2, SampleBreaks.Small.Bars[2] with { Strokes = [] }),
        };
        place.Put("bar.json", JsonWriter.Write(silent));
        place
            .Run("render", "bar.json", "-o", "x.wav", "--bars", "2")
            .Err.Trim()
            .Should()
            .Be("the bars asked for have no notes; ask for others");
        place.Put(
            "all.json",
            JsonWriter.Write(
                silent with
                {
                    Bars = [.. silent.Bars.Select(bar => bar with { Strokes = [] })],
                    Spans = [],
                }
            )
        );
        var (code, _, error) = place.Run("render", "all.json", "-o", "x.wav", "--band", "all");
        code.Should().Be(2);
        error.Trim().Should().Be("the break has no notes: there is nothing to be sounded");
        place.Files.Should().Equal("all.json", "bar.json");
    }

    [Fact]
    public void A_full_disk_is_one_line_and_leaves_no_half_file()
    {
        Assert.SkipUnless(Outside.Has("unshare"), "needs unshare (Debian: util-linux) to have a small disk of its own");
        using var place = new Workplace();
        place.Put("tune.json", JsonWriter.Write(SampleBreaks.Small));
        var program = Path.Combine(AppContext.BaseDirectory, "rollwright.dll");
        // A disk of 64 kB: too small for the WAV, which is known before; and for the Opus file, which is not.
        var script =
            $"mount -t tmpfs -o size=64k none /mnt || exit 77; for form in wav opus; do "
            + $"dotnet '{program}' render tune.json -o /mnt/tune.$form; echo \"code $?\"; done; ls -A /mnt; echo end";
        var (code, text, error) = Outside.Run("unshare", ["-rm", "sh", "-c", $"cd '{place.Folder}'; {script}"]);
        Assert.SkipWhen(code is 77 or 1, $"may not mount a small disk here: {error}");
        text.ReplaceLineEndings("\n").Should().Be("code 2\ncode 2\nend\n", error);
        var lines = error.Trim().Split('\n');
        lines.Should().HaveCount(2);
        lines[0].Should().StartWith("/mnt/tune.wav: this needs").And.Contain("0.1 MB are free");
        lines[1].Should().Be("/mnt/tune.opus: the disk is full; make room, or write elsewhere");
    }

    private static float[] Read(Workplace place, string name) =>
        WavReader.Read(File.ReadAllBytes(Path.Combine(place.Folder, name))).Interleaved.ToArray();
}
