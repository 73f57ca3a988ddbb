using System.Text.Json;
using System.Text.Json.Nodes;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Formats.Abc;
using Rollwright.Music.Metre;
using Rollwright.Sound;
using Rollwright.Sound.Band;
using Rollwright.Sound.Browser;
using Rollwright.Sound.Playing;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Playing;

/// <summary>
/// The player's sound in a real browser against the program's, sample by sample, in every way of playing that both have. The
/// program's is itself held against outside programs (docs/sound.md).
/// </summary>
[Collection(Alone.Name)]
public class SameSoundTests
{
    private const int Rate = 44_100;

    private static readonly object[] WholeBand =
    [
        .. Ensemble.Accompanists.Select(name => (object)new { call = "setLevel", with = new object[] { name, 1 } }),
    ];

    public static TheoryData<string> Breaks => ["small", "wren-on-the-gatepost", "three-buckets-deep"];

    private static Break BreakOf(string name)
    {
        if (name == "small")
            return SampleBreaks.SmallCapo2;
        var file = Path.Combine(Places.Root, "data", "demo", $"{name}.abc");
        return Arranger.Arrange(AbcReader.Read(File.ReadAllBytes(file), file).Tunes[0]).Break;
    }

    [Theory]
    [MemberData(nameof(Breaks))]
    public async Task A_break_by_the_worklet(string name)
    {
        var played = BreakOf(name);
        await using var page = await SoundPage.Open();
        var frames = FramesOf(played, new());
        var heard = await page.ThroughTheWorklet(PlayerScore.Write(played), Rate, frames, new { order = "play" });
        ShouldBeAlike(heard, played, new(), frames);
    }

    public static TheoryData<string> Accompanists => [.. Ensemble.Accompanists];

    [Theory]
    [MemberData(nameof(Accompanists))]
    public async Task One_of_the_band_beside_the_banjo(string name) =>
        await Compare(
            SampleBreaks.SmallCapo2,
            new() { Band = [name] },
            [new { call = "setLevel", with = new object[] { name, 1 } }, new { call = "play" }]
        );

    [Fact]
    public async Task A_swung_break_with_bass_guitar_and_chop_after_two_bars_of_count()
    {
        // At half = 80 swung notes fall half way between two frames, where either is right.
        var played = SampleBreaks.Small with
        {
            Swing = Swing.TwoToOne,
            Tempo = new(new Fraction(1, 2), 77),
        };
        var options = new SynthOptions { CountIn = 2, Band = ["bass", "guitar", "chop"] };
        await Compare(
            played,
            options,
            [.. WholeBand.Take(3), new { call = "play", with = new[] { new { countIn = 2 } } }]
        );
    }

    [Fact]
    public async Task A_loop_of_a_phrase_whose_pickup_stands_in_the_last_bar()
    {
        var options = new SynthOptions { To = new Fraction(9, 4), TimesThrough = 3 };
        // The pickup takes the end of the last bar: two whole notes from pass to pass.
        await Compare(
            SampleBreaks.Small,
            options,
            [new { call = "setLoop", with = new[] { new { from = 0, to = 2 } } }, new { call = "play" }],
            // Up to where the hand already comes down for the first note of a fourth pass.
            wholes: 5.99
        );
    }

    [Fact]
    public async Task A_banjo_that_rests_every_other_two_bars_while_the_band_goes_on()
    {
        var options = new SynthOptions { RestEvery = 2, Band = Ensemble.Accompanists };
        await Compare(
            SampleBreaks.Small,
            options,
            [
                .. WholeBand,
                new { call = "setTrade", with = new[] { new { every = 2, of = "bars" } } },
                new { call = "play" },
            ]
        );
    }

    [Fact]
    public async Task The_right_hand_alone_on_open_strings()
    {
        var open = SampleBreaks.Small with
        {
            Bars =
            [
                .. SampleBreaks.Small.Bars.Select(bar =>
                    bar with
                    {
                        Strokes =
                        [
                            .. bar
                                .Strokes.Where(stroke => stroke.Right is not null)
                                .Select(stroke => stroke with { Fret = 0, Left = null }),
                        ],
                    }
                ),
            ],
        };
        var frames = FramesOf(open, new());
        await using var page = await SoundPage.Open();
        var heard = await page.ByTheEngine(
            PlayerScore.Write(SampleBreaks.Small),
            Rate,
            frames,
            new { call = "setOpen", with = new[] { true } },
            new { call = "play" }
        );
        heard[0].Should().NotBeEmpty();
        ShouldBeAlike(heard, open, new(), frames);
    }

    [Fact]
    public async Task A_choke_and_a_slide_down()
    {
        var bent = SampleBreaks.Small with
        {
            Bars =
            [
                .. SampleBreaks.Small.Bars.Select(bar =>
                    bar with
                    {
                        Strokes =
                        [
                            .. bar.Strokes.Select(stroke =>
                                stroke.Slur switch
                                {
                                    SlurKind.HammerOn => stroke with { Slur = SlurKind.Choke },
                                    SlurKind.PullOff => stroke with { Slur = SlurKind.Slide },
                                    _ => stroke,
                                }
                            ),
                        ],
                    }
                ),
            ],
        };
        await Compare(bent, new(), [new { call = "play" }]);
    }

    // So soft that nothing is rounded off at full scale.
    private static byte[] Quiet(Break played)
    {
        var score = JsonNode.Parse(PlayerScore.Write(played))!;
        score["gain"] = 0.1;
        return JsonSerializer.SerializeToUtf8Bytes(score);
    }

    private static int FramesOf(Break played, SynthOptions options) =>
        (int)Math.Min(20 * Rate, Timeline.Of(played, options).Seconds * Rate);

    private static async Task Compare(Break played, SynthOptions options, object[] orders, double? wholes = null)
    {
        var frames = FramesOf(played, options);
        if (wholes is { } until)
            frames = Math.Min(frames, (int)(until * played.Tempo.SecondsPerWhole * Rate));
        await using var page = await SoundPage.Open();
        var heard = await page.ByTheEngine(Quiet(played), Rate, frames, orders);
        ShouldBeAlike(heard, played, options, frames);
    }

    private static void ShouldBeAlike(float[][] heard, Break played, SynthOptions options, int frames)
    {
        var wanted = Synth.Render(played, options with { Stereo = true, SampleRate = Rate }).Interleaved;
        for (var channel = 0; channel < 2; channel++)
        {
            var program = new float[frames];
            for (var i = 0; i < frames; i++)
                program[i] = wanted[(2 * i) + channel];
            var alike = Likeness.Of(heard[channel], program);
            // Measured: 2e-11 and 1e-5 of full scale for the banjo, 2e-9 and 6e-5 with the band, whose strings stop being reckoned when
            // they are too soft to hear, a block earlier or later; what is left is the rounding of floats.
            alike.Apart.Should().BeLessThan(1e-8);
            alike.Difference.Should().BeLessThan(1e-4);
        }
    }
}
