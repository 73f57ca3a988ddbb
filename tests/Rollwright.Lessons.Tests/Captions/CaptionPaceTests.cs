using System.Globalization;
using System.Text;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.Lessons.Captions;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Captions;

/// <summary>Captions that can be read while the break is played: 17 characters a second, two lines of 40 (common practice, no source).</summary>
public class CaptionPaceTests
{
    private const double PerSecond = 17;
    private const int Line = 40;

    [Fact]
    public void Nobody_has_to_read_faster_than_people_read()
    {
        foreach (var played in Demo().Concat(SharedBreaks.All()))
        {
            var cues = CuesOf(played, BarTimes.At(played));
            cues.Should().NotBeEmpty(played.Title);
            foreach (var cue in cues.Where(cue => cue.To - cue.From >= 1))
                (cue.Text.Length / (cue.To - cue.From))
                    .Should()
                    .BeLessThanOrEqualTo(PerSecond, $"{played.Title}: {cue}");
            cues.Should().OnlyContain(cue => cue.Text.Split('\n').Length <= 2, played.Title);
            cues.SelectMany(cue => cue.Text.Split('\n'))
                .Should()
                .OnlyContain(line => line.Length <= Line, played.Title);
            InOrder(cues, played.Title);
        }
    }

    [Fact]
    public void At_full_tempo_most_of_the_time_something_is_said()
    {
        foreach (var played in Demo().Concat(SharedBreaks.All()))
        {
            var (times, cues) = (BarTimes.At(played), CuesOf(played, BarTimes.At(played)));
            (cues.Sum(cue => cue.To - cue.From) / times.Bars[^1].To).Should().BeGreaterThan(0.6, played.Title);
        }
    }

    [Fact]
    public void A_slow_take_has_all_words()
    {
        foreach (var played in Demo().Concat(SharedBreaks.All()))
        {
            var tempo = played.Tempo with { PerMinute = 2 };
            var times = BarTimes.At(played, tempo);
            var cues = CuesOf(played, times);
            var words = PhraseWords.EachOf(played).ToDictionary(one => one.Number);
            var all = PhraseTime
                .Of(played, times)
                .SelectMany(time =>
                    words[time.Phrase.Number]
                        .Sentences.Where(one => time.Bars.Any(bar => bar.Bar == one.Bars[0]))
                        .Select(one => one.Short)
                );
            Plain(cues.Select(cue => cue.Text)).Should().Be(Plain(all), played.Title);
            InOrder(cues, played.Title);
        }
    }

    [Fact]
    public void Words_of_a_person_stay_whole_however_fast_it_is()
    {
        const string own =
            "Let the thumb fall where it wants to, and do not look at it while the others are listening; the rest is easy.";
        var played = SampleBreaks.Small;
        var lesson = Of(played, BarTimes.At(played)) with { Edits = LessonText.Empty.With(played, 1, own) };
        var cues = Read(lesson);
        Plain(cues.Select(cue => cue.Text)).Should().Contain(own);
        InOrder(cues, "own words");
    }

    private static void InOrder(List<Cue> cues, string title)
    {
        cues.Should().OnlyContain(cue => cue.To > cue.From, title);
        for (var i = 1; i < cues.Count; i++)
            cues[i].From.Should().BeGreaterThanOrEqualTo(cues[i - 1].To, title);
    }

    private static string Plain(IEnumerable<string> words) =>
        string.Join(' ', string.Join(' ', words).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static IEnumerable<Break> Demo() =>
        Directory
            .GetFiles(Path.Combine(Places.Root, "data", "demo"), "*.abc")
            .Order(StringComparer.Ordinal)
            .Select(file =>
                Arranger.Arrange(AbcReader.Read(File.ReadAllText(file), file).Tunes[0], ArrangeOptions.Default)
            )
            .Select(made => made.Break);

    private static Lesson Of(Break played, BarTimes times) => new() { Plan = LessonPlan.Of(played), Times = times };

    private static List<Cue> CuesOf(Break played, BarTimes times) => Read(Of(played, times));

    // As the file says it, not as it was meant.
    private static List<Cue> Read(Lesson lesson)
    {
        var text = Encoding.UTF8.GetString(
            LessonOutput.Find("captions")!.Make(lesson).Single(file => file.Path == "captions.vtt").Bytes
        );
        return
        [
            .. text.Split("\n\n", StringSplitOptions.RemoveEmptyEntries)
                .Where(block => block.Contains("-->", StringComparison.Ordinal))
                .Select(block => block.TrimEnd().Split('\n'))
                .Select(lines => new Cue(
                    Seconds(lines[1].Split(' ')[0]),
                    Seconds(lines[1].Split(' ')[2]),
                    System.Net.WebUtility.HtmlDecode(string.Join('\n', lines[2..]))
                )),
        ];
    }

    private static double Seconds(string stamp) =>
        TimeSpan.ParseExact(stamp, @"hh\:mm\:ss\.fff", CultureInfo.InvariantCulture).TotalSeconds;
}
