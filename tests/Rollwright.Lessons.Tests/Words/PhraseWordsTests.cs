using Rollwright.Arranging;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Strokes;
using Rollwright.Lessons.Words;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Words;

public class PhraseWordsTests
{
    [Fact]
    public void The_long_words_alone_give_every_note_of_a_small_break_back() => GivesBack(SampleBreaks.Small);

    [Theory]
    [InlineData("roll", 1)]
    [InlineData("roll", 3)]
    [InlineData("roll", 5)]
    [InlineData("melodic", 1)]
    [InlineData("melodic", 3)]
    [InlineData("melodic", 5)]
    [InlineData("single-string", 1)]
    [InlineData("single-string", 3)]
    [InlineData("single-string", 5)]
    [InlineData("mixed", 1)]
    [InlineData("mixed", 3)]
    [InlineData("mixed", 5)]
    public void The_long_words_alone_give_every_note_of_a_break_back(string style, int level)
    {
        foreach (var played in SharedBreaks.In(new() { Style = StyleTable.Find(style), Level = level }))
            GivesBack(played);
    }

    private static void GivesBack(Break played)
    {
        var phrases = BreakForm.Of(played).SelectMany(part => part.Phrases).ToList();
        var reader = new WordsReader(Bare(played));
        foreach (var (phrase, words) in phrases.Zip(PhraseWords.Of(played)))
            reader.Read(phrase, words.Text(WordForm.Long));
        for (var bar = 0; bar < played.Bars.Length; bar++)
        {
            var strokes = played
                .Bars[bar]
                .Strokes.Select(stroke => new ReadStroke(
                    stroke.At,
                    stroke.String,
                    stroke.Fret,
                    stroke.Right,
                    stroke.Slur,
                    stroke.Fret == 0 ? "" : HandNames.OfLeft(stroke.Left)
                ));
            reader.Bars[bar].Should().BeEquivalentTo(strokes, $"{played.Title}, bar {played.Numbering[bar].Name}");
        }
    }

    // What the reader of the words may see: bars, metres, marks.
    private static Break Bare(Break played) =>
        played with
        {
            Tune = null,
            Spans = [],
            Bars = [.. played.Bars.Select(bar => bar with { Strokes = [], Chords = [] })],
        };
}
