using System.Text.Json;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;
using Rollwright.Sound.Browser;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

/// <summary>What the player in a browser is told of a break.</summary>
public class PlayerScoreTests
{
    private static JsonElement ScoreOf(Break played) => JsonDocument.Parse(PlayerScore.Write(played)).RootElement;

    private static JsonElement[] Items(JsonElement of, string name) => [.. of.GetProperty(name).EnumerateArray()];

    private static double Number(JsonElement of, string name) => of.GetProperty(name).GetDouble();

    [Fact]
    public void Every_stroke_stands_there_in_order_of_play_under_the_name_that_the_drawing_gives_it()
    {
        var strokes = Items(Items(ScoreOf(SampleBreaks.Small), "parts")[0], "strokes");
        strokes
            .Select(stroke => (Number(stroke, "at"), stroke.GetProperty("of").GetString()))
            .Should()
            .Equal(SampleBreaks.Small.Played().Select(own => (own.At.ToDouble(), (string?)$"{own.Bar}-{own.Index}")));
    }

    [Fact]
    public void Bars_stand_where_they_are_played_and_are_named_as_on_paper()
    {
        var score = ScoreOf(SampleBreaks.Small);
        var bars = Items(score, "bars");
        // A pickup of two eighths, then part A (four bars with two endings) and part B (two bars) twice each.
        bars.Should().HaveCount(1 + 8 + 4);
        Number(bars[0], "begins").Should().Be(-0.75);
        Number(bars[1], "at").Should().Be(0.25);
        bars[1].GetProperty("words").GetString().Should().Be("part A, bar 1 of 7");
        bars.Select(bar => bar.GetProperty("bar").GetInt32()).Should().Equal(0, 1, 2, 3, 4, 1, 2, 3, 5, 6, 7, 6, 7);
        Number(score, "length").Should().Be(12.25);
        Items(score, "phrases")
            .Select(phrase => phrase.GetProperty("words").GetString())
            .Should()
            .Equal("bars 1–2", "bars 3–4", "bar 5", "bars 6–7");
    }

    [Fact]
    public void Swung_off_beats_are_told_late_and_bars_stay()
    {
        var even = ScoreOf(SampleBreaks.Small);
        var swung = ScoreOf(SampleBreaks.Small with { Swing = Swing.TwoToOne });
        Items(swung, "bars")
            .Select(bar => Number(bar, "at"))
            .Should()
            .Equal(Items(even, "bars").Select(bar => Number(bar, "at")));
        var strokes = Items(Items(swung, "parts")[0], "strokes");
        Number(strokes[1], "at").Should().BeApproximately(0.125 + (0.125 / 3), 1e-12);
    }

    [Fact]
    public void The_whole_band_is_told_and_each_metre_has_its_clicks()
    {
        var score = ScoreOf(SampleBreaks.Small);
        var parts = Items(score, "parts");
        parts
            .Select(part => part.GetProperty("name").GetString())
            .Should()
            .Equal("banjo", "bass", "guitar", "chop", "click");
        parts.Should().OnlyContain(part => Items(part, "strokes").Length > 10);
        foreach (var part in parts)
            Items(part, "strokes").Select(stroke => Number(stroke, "at")).Should().BeInAscendingOrder();
        var clicks = Items(score.GetProperty("count"), "2/2");
        clicks.Select(click => Number(click, "at")).Should().Equal(0, 0.5);
        Number(clicks[0], "strength").Should().BeGreaterThan(Number(clicks[1], "strength"));
    }

    [Fact]
    public void A_title_cannot_end_the_script_element_that_holds_it()
    {
        var text = PlayerScore.WriteText(SampleBreaks.Small with { Title = "</script><img src=x>" });
        text.Should().NotContain("<");
        JsonDocument.Parse(text).RootElement.GetProperty("title").GetString().Should().Be("</script><img src=x>");
    }
}
