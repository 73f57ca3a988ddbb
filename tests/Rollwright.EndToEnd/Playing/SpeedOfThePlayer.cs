using Rollwright.Arranging;
using Rollwright.Formats.Abc;
using Rollwright.Sound.Band;
using Rollwright.Sound.Browser;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Playing;

/// <summary>
/// No test but a measurement, run only when it is asked for (bench/README.md): how many seconds of sound the browser makes in
/// a second, through the worklet into an offline context, on one core.
/// </summary>
[Collection(Alone.Name)]
public class SpeedOfThePlayer
{
    [Theory(Explicit = true)]
    [InlineData(false)]
    [InlineData(true)]
    public async Task How_many_times_faster_than_it_sounds(bool isWithBand)
    {
        var file = Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");
        var played = Arranger.Arrange(AbcReader.Read(File.ReadAllBytes(file), file).Tunes[0]).Break;
        await using var page = await SoundPage.Open();
        var told = await page.Evaluate(
            """
            async ({ text, levels }) => {
              const score = JSON.parse(text);
              const rate = 48000;
              const seconds = 40;
              const took = [];
              for (let round = 0; round < 9; round++) {
                const context = new OfflineAudioContext(2, seconds * rate, rate);
                await context.audioWorklet.addModule("/assets/player/worklet.js");
                const start = [...levels.map((name) => ({ order: "level", name, level: 1 })), { order: "play" }];
                const options = { numberOfInputs: 0, outputChannelCount: [2], processorOptions: { score, start } };
                const node = new AudioWorkletNode(context, "rollwright-player", options);
                node.connect(context.destination);
                const began = performance.now();
                await context.startRendering();
                took.push((performance.now() - began) / 1000);
              }
              return took.sort((a, b) => a - b).map((one) => seconds / one);
            }
            """,
            new { text = PlayerScore.WriteText(played), levels = isWithBand ? Ensemble.Accompanists.ToArray() : [] }
        );
        var times = told.EnumerateArray().Select(one => one.GetDouble()).ToArray();
        TestContext.Current.SendDiagnosticMessage(
            $"{(isWithBand ? "with the whole band" : "banjo alone")}: {times[4]:0} times real time (median of 9; {times[^1]:0} to {times[0]:0})"
        );
    }
}
