using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Licks;
using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Tests.Licks;

/// <summary>What is taken out of a bar is what was written into it: the licks of the program, there and back.</summary>
public class LickExtractTests
{
    public static TheoryData<string> Names =>
        [.. LickTable.All.Where(lick => LickBreak.Of(lick).Bars.Length == 1).Select(lick => lick.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_lick_that_was_written_out_is_taken_out_the_same(string name)
    {
        var lick = LickTable.All.First(one => one.Name == name);
        var played = LickBreak.Of(lick);
        var (steps, fault) = LickExtract.Of(played, 0, Fraction.Zero, played.Bars[0].Length);
        fault.Should().BeNull();
        LickTabWriter.Write(steps).Should().Be(LickTabWriter.Write(lick.Steps));
    }

    [Theory]
    [InlineData("3.2Ts4 2.0I 5.0T 1.0M", 2, 4, "5.0T 1.0M")]
    [InlineData("4.0T h2 3.0I 1.0M", 0, 2, "4.0T h2")]
    [InlineData(
        "4.0T h2 3.0I 1.0M",
        1,
        4,
        "step 1: it begins with a slur out of the note before; begin a step earlier"
    )]
    [InlineData("4.0T h2 3.0I 1.0M", 3, 4, "these notes are too short for a lick; take 2 whole steps or more")]
    [InlineData("4.0T h2 - - - 1.0M", 2, 5, "nothing sounds there; choose steps with notes")]
    public void Some_steps_are_taken_or_refused_in_words(string tab, int from, int to, string answer)
    {
        var played = Written(tab);
        var step = played.Time.Step;
        var (steps, fault) = LickExtract.Of(played, 0, step * from, step * to);
        (fault is null ? LickTabWriter.Write(steps) : $"{fault.Words}; {fault.Remedy}").Should().Be(answer);
    }

    [Fact]
    public void A_note_between_the_steps_is_refused()
    {
        var played = Written("4.0T 3.0I 2.0M 1.0M");
        var bar = played.Bars[0];
        var late = bar.Strokes[1] with { At = bar.Strokes[1].At + new Fraction(1, 16) };
        played = played with { Bars = [bar with { Strokes = bar.Strokes.SetItem(1, late) }] };
        var (_, fault) = LickExtract.Of(played, 0, Fraction.Zero, bar.Length);
        fault!.Words.Should().Be("step 2: a note falls between the steps");
    }

    private static Break Written(string tab) =>
        LickBreak.Of(LickTable.All[0] with { Steps = LickTab.Read(tab), IsInThrees = false });
}
