using System.Globalization;
using CsCheck;
using Rollwright.Lessons.Captions;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Captions;

/// <summary>WebVTT read by another program: ffprobe's cues are ours.</summary>
public sealed class WebVttTests : IDisposable
{
    private readonly string path = Path.Combine(Path.GetTempPath(), $"{Guid.NewGuid():N}.vtt");

    public void Dispose() => File.Delete(path);

    [Fact]
    public void Another_program_reads_the_same_times()
    {
        Cue[] cues = [new(0, 1.5, "one"), new(1.5, 61.25, "two\nlines"), new(61.25, 3725.001, "three")];
        var times = Packets(WebVtt.Write("a note", cues)).Select(packet => packet.Split('|')).ToList();
        times.Select(time => Seconds(time[0])).Should().Equal(cues.Select(cue => cue.From));
        times
            .Select(time => Seconds(time[1]))
            .Should()
            .Equal(cues.Select(cue => cue.To - cue.From), (a, b) => Math.Abs(a - b) < 0.0011);
    }

    [Fact]
    public void No_words_can_end_a_cue_or_begin_one()
    {
        string[] wicked =
        [
            "00:01.000 --> 00:02.000",
            "a --> b",
            "first\n\nsecond",
            "first\r\n\r\n00:09.000 --> 00:10.000\nWEBVTT",
            "<script>alert(1)</script> & <b>",
            "NOTE\n\nSTYLE\n::cue{}",
        ];
        foreach (var words in wicked)
        {
            var text = WebVtt.Write(words, [new(0, 1, words), new(1, 2, words)]);
            Packets(text).Should().HaveCount(2, words);
            text.Split('\n').Count(line => line.Contains("-->")).Should().Be(2, words);
            text.Should().NotContain("<");
        }
    }

    [Fact]
    public void Every_text_gives_as_many_cues_as_there_are() =>
        Gen
            .String.Select(Gen.String)
            .Sample(
                (note, words) =>
                    WebVtt
                        .Write(note, [new(0, 1, words), new(1, 2, "x")])
                        .Split('\n')
                        .Count(line => line.Contains("-->", StringComparison.Ordinal)) == 2
            );

    private List<string> Packets(string text)
    {
        File.WriteAllText(path, text);
        var (code, output, error) = Outside.Run(
            "ffprobe",
            "-v",
            "error",
            "-show_entries",
            "packet=pts_time,duration_time",
            "-of",
            "csv=p=0:s=|",
            path
        );
        code.Should().Be(0, error);
        return [.. output.Split('\n', StringSplitOptions.RemoveEmptyEntries)];
    }

    private static double Seconds(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
