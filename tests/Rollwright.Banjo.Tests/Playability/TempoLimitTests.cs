using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Playability;
using Rollwright.Music.Metre;
using Rollwright.TestKit;

namespace Rollwright.Banjo.Tests.Playability;

public class TempoLimitTests
{
    // Round times, so that what is expected can be reckoned by hand: half = n is 120 / n s a whole note, an eighth
    // 15 / n s.
    private static readonly HandTimes Round = HandTimes.Parse(
        "round.txt",
        """
        name | value | unit | source | meaning
        pluck | 0.05 | s | A | -
        thumb-again | 0.10 | s | A | -
        index-again | 0.12 | s | A | -
        middle-again | 0.12 | s | A | -
        string-away | 0.01 | s | A | -
        same-string | 0.10 | s | A | -
        sound | 0.05 | s | A | -
        hop | 0.10 | s | A | -
        lay | 0.05 | s | A | -
        place | 0.06 | s | A | -
        place-more | 0.03 | s | A | -
        shift | 0.05 | s | A | -
        shift-mm | 0.001 | s per mm | A | -
        stretch-mm | 0.004 | s per mm | A | -
        hammer-on | 0.06 | s | A | -
        pull-off | 0.06 | s | A | -
        slide | 0.06 | s | A | -
        slide-mm | 0.0004 | s per mm | A | -
        choke | 0.12 | s | A | -
        limiting | 5 | per cent | A | -
        """
    );

    [Fact]
    public void Every_time_of_the_hands_is_in_the_data()
    {
        HandTimes.Usual.Pluck.Should().BePositive();
        var reading = () => HandTimes.Parse("mine.txt", "name|value|unit|source|meaning\nblink | 1 | s | A | -\n");
        reading.Should().Throw<DataException>().WithMessage("mine.txt:2: 'blink' is no time of the hands*");
        reading = () => HandTimes.Parse("mine.txt", "name|value|unit|source|meaning\npluck | 0 | s | A | -\n");
        reading.Should().Throw<DataException>().WithMessage("mine.txt:2: value 0 is not above 0*");
        reading = () => HandTimes.Parse("mine.txt", "name|value|unit|source|meaning\npluck | 1 | s | A | -\n");
        reading.Should().Throw<DataException>().WithMessage("mine.txt:1: * is missing");
    }

    // Two eighths are 30 / n s. The thumb from string 3 to string 5 needs 0.10 + 2 · 0.01 = 0.12 s: n = 250.
    [Fact]
    public void An_open_roll_is_limited_by_the_thumb()
    {
        var limit = Of("3.0T 2.0I 5.0T 1.0M 4.0T 2.0I 5.0T 1.0M");
        limit.PerMinute.Should().BeApproximately(250, 1e-9);
        limit.Bars[0].Words.Should().Be("the thumb goes from string 3 to string 5 after two steps");
        limit.Bars[0].At.Should().Be(new Fraction(1, 4));
    }

    // One eighth is 15 / n s. Two fingers on one string 0.10 s apart: n = 150.
    [Fact]
    public void Single_string_playing_is_limited_by_two_fingers_on_one_string() =>
        Of("1.0T 1.0I 1.0T 1.0I").PerMinute.Should().BeApproximately(150, 1e-9);

    // Left finger 2 from string 3 to string 1 at fret 2 within a step needs 0.05 + 0.10 s: n = 100. Lying down on
    // string 2 needs 0.05 + 0.05 s: n = 150.
    [Fact]
    public void A_finger_that_hops_takes_longer_than_one_that_lies_down()
    {
        Of("3.2T 1.2M 5.0T 2.0I").PerMinute.Should().BeApproximately(100, 1e-9);
        Of("2.2T 1.2M 5.0T 3.0I").PerMinute.Should().BeApproximately(150, 1e-9);
    }

    // Finger 2 at fret 2: the index finger at 1 at least; finger 4 at fret 9: at 5 to 7. From 2 · 5, place(5) − place(1)
    // = 666.75 · (2^(−1/12) − 2^(−5/12)) = 129.83 mm: 0.05 + 0.05 + 0.1298 s within a step: n = 15 / 0.2298 = 65.3.
    [Fact]
    public void A_jump_up_the_neck_is_named_with_its_frets()
    {
        var limit = Of("- 2.0I 3.2T 1.9M");
        limit.PerMinute.Should().BeApproximately(65.3, 0.1);
        limit.Bars[0].Words.Should().Be("the left hand moves from fret 2 to fret 9 in one step");
    }

    // The same with an open string between has two steps: twice as fast.
    [Fact]
    public void Open_strings_between_give_the_hand_time()
    {
        var one = Of("- 2.0I 3.2T 1.9M").PerMinute!.Value;
        Of("2.0I 3.2T 5.0I 1.9M").PerMinute.Should().BeApproximately(2 * one, 0.2);
    }

    // A hammer-on within half a step has 7.5 / n s and needs 0.06: n = 125.
    [Fact]
    public void A_slur_within_a_step_has_half_of_it()
    {
        var bar = SampleBreaks.Bar("3.2T 2.0I 5.0T 1.0M");
        var hammer = bar.Strokes[0] with
        {
            At = new(1, 16),
            Fret = 3,
            Left = 3,
            Right = null,
            Slur = Strokes.SlurKind.HammerOn,
        };
        var limit = TempoLimit.Of(Made(bar with { Strokes = bar.Strokes.Insert(1, hammer) }), Round);
        limit.PerMinute.Should().BeApproximately(125, 1e-9);
        limit.Bars[0].Words.Should().Be("a hammer-on from fret 2 to 3 within half a step");
    }

    [Fact]
    public void A_repeat_is_felt_where_it_leads_back()
    {
        var marks = new Music.Forms.BarMarks { RepeatEnd = 2 };
        var once = Made(SampleBreaks.Bar("3.2T 2.0I 5.0T 1.0M 3.0T 2.0I 5.0T 1.7M"));
        var twice = once with { Bars = [once.Bars[0] with { Marks = marks }] };
        TempoLimit.Of(twice, Round).PerMinute.Should().BeLessThan(TempoLimit.Of(once, Round).PerMinute!.Value);
    }

    [Fact]
    public void The_bars_that_limit_the_whole_are_named()
    {
        var easy = SampleBreaks.Bar("3.0T 2.0I 5.0T 1.0M 4.0T 2.0I 5.0T 1.0M");
        var hard = SampleBreaks.Bar("3.2T 1.0M 5.0T 1.9M 5.0T 2.0I 5.0T 1.0M");
        var limit = TempoLimit.Of(Made(easy, hard, easy));
        limit.Limiting.Should().Equal(1);
        limit.Bars[0].PerMinute.Should().BeGreaterThan(limit.Bars[1].PerMinute!.Value);
    }

    [Fact]
    public void A_demand_that_reaches_over_the_bar_line_says_from_which_bar()
    {
        // The index finger ends the first bar on string 2 and the thumb begins the second there; within the bars nothing is as near.
        var first = SampleBreaks.Bar("3.0T 2.0I 5.0T 1.0M 3.0T 1.0M 5.0T 2.0I");
        var second = SampleBreaks.Bar("2.0T 1.0M 5.0T 2.0I 3.0T 2.0I 5.0T 1.0M");
        var limit = TempoLimit.Of(Made(first, second));
        limit.Bars[1].Words.Should().Be("two fingers pluck string 2 in turn, one step apart");
        limit.Bars[1].Before.Should().Be(0);
        limit.Bars[0].Before.Should().BeNull();
        var marks = new Music.Forms.BarMarks { RepeatEnd = 2 };
        var turned = SampleBreaks.Bar("2.0T 1.0M 5.0T 1.0M 3.0T 1.0M 5.0T 2.0I") with { Marks = marks };
        TempoLimit.Of(Made(turned)).Bars[0].Before.Should().Be(0, "it is its own neighbour over the repeat");
    }

    // Common practice, no source: jams go to 160 half notes a minute, and rolls on open strings are not what stops them.
    [Theory]
    [InlineData("3.0T 2.0I 5.0T 1.0M 4.0T 2.0I 5.0T 1.0M")]
    [InlineData("3.0T 2.0I 1.0M 5.0T 2.0I 1.0M 5.0T 1.0M")]
    [InlineData("1.0M 2.0I 5.0T 1.0M 2.0I 5.0T 1.0M 2.0I")]
    public void An_open_string_roll_goes_beyond_the_fastest_jam(string bar) =>
        TempoLimit.Of(Made(SampleBreaks.Bar(bar))).PerMinute.Should().BeGreaterThan(170);

    [Fact]
    public void A_break_of_twice_the_lengths_goes_twice_as_fast() =>
        BreakGenerator.Breaks.Sample(made =>
        {
            var played = made with { Swing = null };
            var limit = TempoLimit.Of(played);
            var slow = TempoLimit.Of(Longer(played));
            for (var bar = 0; bar < limit.Bars.Length; bar++)
                (slow.Bars[bar].PerMinute ?? 0).Should().BeApproximately(2 * (limit.Bars[bar].PerMinute ?? 0), 1e-6);
        });

    [Fact]
    public void A_stroke_on_an_open_string_left_out_makes_no_break_slower() =>
        Gen.Select(BreakGenerator.Breaks, Gen.Int[0, 4096])
            .Sample(
                (made, pick) =>
                {
                    // A swing may come and go with a stroke; slurs need the note that they start from.
                    var whole = made with
                    {
                        Swing = null,
                        Bars = [.. made.Bars.Select(WithoutSlurs)],
                    };
                    var index = pick % whole.Bars.Length;
                    var bar = whole.Bars[index];
                    var open = bar.Strokes.Where(stroke => stroke.Fret == 0).ToArray();
                    if (open.Length == 0)
                        return;
                    var fewer = bar with { Strokes = bar.Strokes.Remove(open[pick / 64 % open.Length]) };
                    var before = TempoLimit.Of(whole).PerMinute ?? double.MaxValue;
                    var after = TempoLimit.Of(whole with { Bars = whole.Bars.SetItem(index, fewer) }).PerMinute;
                    (after ?? double.MaxValue).Should().BeGreaterThanOrEqualTo(before - 1e-9);
                }
            );

    [Fact]
    public void Slower_hands_are_slower_in_every_bar() =>
        BreakGenerator.Breaks.Sample(played =>
        {
            var slow = HandTimes.Parse(
                "slow.txt",
                string.Join('\n', BuiltInData.Text("hands.txt").Split('\n').Select(Slower))
            );
            var (usual, slower) = (TempoLimit.Of(played), TempoLimit.Of(played, slow));
            usual
                .Bars.Zip(slower.Bars)
                .Should()
                .OnlyContain(pair => (pair.Second.PerMinute ?? 0) <= (pair.First.PerMinute ?? 0));
        });

    private static string Slower(string row)
    {
        var cells = row.Split('|');
        return cells.Length == 5 && double.TryParse(cells[1], out var value)
            ? $"{cells[0]}|{value * 1.3}|{cells[2]}|{cells[3]}|{cells[4]}"
            : row;
    }

    private static BreakBar WithoutSlurs(BreakBar bar) =>
        bar with
        {
            Strokes = [.. bar.Strokes.Where(stroke => stroke.Slur is null)],
        };

    private static Break Longer(Break played) =>
        played with
        {
            Bars =
            [
                .. played.Bars.Select(bar =>
                    bar with
                    {
                        Length = bar.Length * 2,
                        Time = new(bar.Time.Beats, Math.Max(1, bar.Time.Unit / 2)),
                        Strokes =
                        [
                            .. bar.Strokes.Select(stroke =>
                                stroke with
                                {
                                    At = stroke.At * 2,
                                    Length = stroke.Length * 2,
                                }
                            ),
                        ],
                    }
                ),
            ],
        };

    private static TempoLimit Of(string bar) => TempoLimit.Of(Made(SampleBreaks.Bar(bar)), Round);

    private static Break Made(params BreakBar[] bars) => SampleBreaks.Small with { Bars = [.. bars], Spans = [] };
}
