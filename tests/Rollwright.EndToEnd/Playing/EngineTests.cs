using Rollwright.Sound.Browser;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Playing;

/// <summary>What the player does while it plays; notes are found in its sound.</summary>
[Collection(Alone.Name)]
public class EngineTests
{
    private const int Rate = 48_000;

    private static readonly byte[] Score = PlayerScore.Write(SampleBreaks.Small);

    // Seconds of a whole note at half = 80, the tempo of the break.
    private const double Whole = 1.5;

    private static async Task<float[]> Play(double seconds, params object[] orders)
    {
        await using var page = await SoundPage.Open();
        return (await page.ByTheEngine(Score, Rate, (int)(seconds * Rate), orders))[0];
    }

    private static double[] Onsets(float[] sound) => new Tapped(Rate, 0, sound, []).Onsets();

    private static double Nearest(double[] onsets, double at) => onsets.MinBy(onset => Math.Abs(onset - at));

    [Fact]
    public async Task It_stops_within_five_milliseconds_and_fades_without_a_click()
    {
        const int at = 2 * Rate;
        var sound = await Play(3, new { call = "play" }, new { at, call = "stop" });
        var stopped = (at / 128 * 128) + (5 * Rate / 1000);
        sound.AsSpan(0, at).ToArray().TakeLast(500).Max(Math.Abs).Should().BeGreaterThan(0.01f);
        sound[stopped..].Should().OnlyContain(value => value == 0);
        // A straight line down: what is left of it at its last millisecond is a fifth at most.
        var loudest = sound.AsSpan(at - 2_000, 2_000).ToArray().Max(Math.Abs);
        sound.AsSpan(stopped - 48, 48).ToArray().Max(Math.Abs).Should().BeLessThan(0.25f * loudest);
    }

    [Fact]
    public async Task A_loop_comes_again_after_exactly_its_length_without_a_gap()
    {
        // Bar 1 of part A again and again: eight eighths, one whole note.
        var loop = new { from = 0.25, to = 1.25 };
        var sound = await Play(
            4.5 * Whole,
            new { call = "setLoop", with = new[] { loop } },
            new { call = "play", with = new[] { new { from = 0.25 } } }
        );
        var onsets = Onsets(sound);
        foreach (var eighth in new[] { 0, 2, 3, 6, 7 })
        {
            for (var round = 0; round < 4; round++)
            {
                var at = (round + (eighth / 8.0)) * Whole;
                Nearest(onsets, at).Should().BeApproximately(at, 0.002);
            }
        }
    }

    [Fact]
    public async Task Loops_that_take_turns_follow_each_other_without_a_gap()
    {
        // Bar 1 of part A (a whole note), then the first half bar of part B, then bar 1 again, and so on.
        var loop = new
        {
            from = 0.25,
            to = 1.25,
            then = new[] { new { from = 8.25, to = 8.75 } },
        };
        var sound = await Play(
            5 * Whole,
            new { call = "setLoop", with = new object[] { loop } },
            new { call = "play", with = new[] { new { from = 0.25 } } }
        );
        var onsets = Onsets(sound);
        foreach (var begins in new[] { 0.0, 1.5, 3.0 })
        {
            foreach (var eighth in new[] { 0, 2, 3, 6, 7, 8, 9, 10, 11 })
            {
                var at = (begins + (eighth / 8.0)) * Whole;
                Nearest(onsets, at).Should().BeApproximately(at, 0.003);
            }
        }
    }

    [Fact]
    public async Task A_change_of_tempo_is_heard_at_once_and_moves_what_waits()
    {
        const double change = 1.0;
        var sound = await Play(
            5,
            new { call = "play" },
            new
            {
                at = (int)(change * Rate),
                call = "setTempo",
                with = new[] { 40 },
            }
        );
        var onsets = Onsets(sound);
        // At half = 40 a whole note lasts twice as long from the change on.
        double SecondsOf(double place) =>
            place * Whole <= change ? place * Whole : change + (((place * Whole) - change) * 2);
        foreach (var place in new[] { 0.25, 0.5, 0.625, 0.75, 1.0, 1.25, 1.5, 1.625 })
            Nearest(onsets, SecondsOf(place)).Should().BeApproximately(SecondsOf(place), 0.003, $"of {place}");
    }

    [Fact]
    public async Task A_bar_is_counted_in_and_the_pickup_stands_in_the_next()
    {
        var sound = await Play(4, new { call = "play", with = new[] { new { countIn = 1 } } });
        var onsets = Onsets(sound);
        // Clicks on both halves of the counted bar and on the first of the next; the pickup leads to its end.
        foreach (var place in new[] { 0, 0.5, 1, 1.5 })
            Nearest(onsets, place * Whole).Should().BeApproximately(place * Whole, 0.002);
        foreach (var place in new[] { 1.75, 1.875, 2.0 })
            Nearest(onsets, place * Whole).Should().BeApproximately(place * Whole, 0.003);
        onsets.Where(at => at < 1.7 * Whole).Should().HaveCount(4, "nothing but clicks comes before the pickup");
    }

    [Fact]
    public async Task Seeking_goes_there_at_once()
    {
        const double at = 0.5;
        var sound = await Play(
            3,
            new { call = "play" },
            new
            {
                at = (int)(at * Rate),
                call = "seek",
                with = new[] { 8.25 },
            }
        );
        var onsets = Onsets(sound);
        // Part B begins with eighths from its first beat.
        foreach (var eighth in new[] { 0, 1, 2, 3 })
        {
            var wanted = at + (eighth / 8.0 * Whole);
            Nearest(onsets, wanted).Should().BeApproximately(wanted, 0.004);
        }
    }

    [Fact]
    public async Task What_the_banjo_leaves_to_the_player_is_silent()
    {
        // Two rounds of one bar, then two without the banjo, then two again.
        var sound = await Play(
            6 * Whole,
            new { call = "setLoop", with = new[] { new { from = 0.25, to = 1.25 } } },
            new { call = "setTrade", with = new[] { new { every = 2, of = "rounds" } } },
            new { call = "play", with = new[] { new { from = 0.25 } } }
        );
        var onsets = Onsets(sound);
        onsets.Where(at => at > 2.05 * Whole && at < 3.95 * Whole).Should().BeEmpty();
        onsets.Count(at => at < 1.95 * Whole).Should().BeGreaterThan(8);
        onsets.Count(at => at > 3.95 * Whole).Should().BeGreaterThan(8);
    }

    [Fact]
    public async Task Loops_of_bars_and_phrases_come_again_after_whole_bars()
    {
        await using var page = await SoundPage.Open();
        var told = await page.Evaluate(
            """
            async (text) => {
              const score = JSON.parse(text);
              const { loopOfAll, loopOfPhrase, loopOfWritten } = await import("/assets/player/loops.js");
              const loops = [loopOfAll(score), loopOfPhrase(score, 1), loopOfPhrase(score, 2), loopOfWritten(score, 7, 6), loopOfWritten(score, 2, 2)];
              return loops.map(({ from, to }) => [from, to]);
            }
            """,
            PlayerScore.WriteText(SampleBreaks.Small)
        );
        told.EnumerateArray()
            .Select(loop => (loop[0].GetDouble(), loop[1].GetDouble()))
            .Should()
            .Equal(
                // The whole: pickup of a quarter, twelve bars, the last one full; the next pickup stands in it.
                (0, 12),
                // Pickup and two bars; the next pickup stands in the second.
                (0, 2),
                (2.25, 4.25),
                (8.25, 10.25),
                (1.25, 2.25)
            );
    }
}
