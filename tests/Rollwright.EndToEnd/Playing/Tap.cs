using System.Runtime.InteropServices;
using System.Text.Json;
using Microsoft.Playwright;

namespace Rollwright.EndToEnd.Playing;

/// <summary>
/// Listens at a page's loudspeaker: whatever the page connects to the destination of its audio context is recorded frame by
/// frame, and so is when the place in the drawing changes. The page knows nothing of it.
/// </summary>
internal static class Tap
{
    private const string Script = """
        (() => {
          const recorder = `registerProcessor("tap", class extends AudioWorkletProcessor {
            process([[heard]]) {
              this.port.postMessage({ frame: currentFrame, heard: heard ? heard.slice() : new Float32Array(128) });
              return true;
            }
          })`;
          const address = `data:text/javascript,${encodeURIComponent(recorder)}`;
          const addModule = AudioWorklet.prototype.addModule;
          AudioWorklet.prototype.addModule = async function (...asked) {
            await addModule.call(this, address);
            return addModule.apply(this, asked);
          };
          const connect = AudioNode.prototype.connect;
          window.tap = { blocks: [], changes: [], context: null };
          AudioNode.prototype.connect = function (target, ...rest) {
            if (target instanceof AudioDestinationNode) {
              window.tap.context = this.context;
              const node = new AudioWorkletNode(this.context, "tap", { numberOfOutputs: 0 });
              node.port.onmessage = ({ data }) => window.tap.blocks.push(data);
              connect.call(this, node);
            }
            return connect.call(this, target, ...rest);
          };
          // What the loudspeaker gives at this moment, in seconds of the context.
          window.tap.heardNow = () => {
            const context = window.tap.context;
            const { contextTime, performanceTime } = context.getOutputTimestamp();
            return contextTime + (performance.now() - performanceTime) / 1000;
          };
          new MutationObserver((changes) => {
            const ids = changes.flatMap((change) => [...change.addedNodes])
              .filter((node) => node.classList?.contains("place"))
              .map((node) => node.dataset.of);
            if (ids.length > 0 && window.tap.context) window.tap.changes.push({ ids, at: window.tap.heardNow() });
          }).observe(document, { subtree: true, childList: true });
        })();
        """;

    public static Task Install(IBrowserContext context) => context.AddInitScriptAsync(Script);

    /// <summary>Forgets what was heard.</summary>
    public static Task Forget(IPage page) => page.EvaluateAsync("() => { tap.blocks = []; tap.changes = []; }");

    public static async Task<Tapped> Read(IPage page)
    {
        var told = (
            await page.EvaluateAsync(
                """
                () => {
                  const { blocks, changes, context } = tap;
                  const first = blocks[0].frame;
                  const whole = new Float32Array(blocks.at(-1).frame + 128 - first);
                  for (const { frame, heard } of blocks) if (frame >= first) whole.set(heard, frame - first);
                  const bytes = new Uint8Array(whole.buffer);
                  let text = "";
                  for (let i = 0; i < bytes.length; i += 32768) text += String.fromCharCode(...bytes.subarray(i, i + 32768));
                  return { first, rate: context.sampleRate, heard: btoa(text), changes };
                }
                """
            )
        )!.Value;
        var samples = MemoryMarshal.Cast<byte, float>(told.GetProperty("heard").GetBytesFromBase64()).ToArray();
        var changes = told.GetProperty("changes")
            .EnumerateArray()
            .Select(change =>
                (
                    change.GetProperty("ids").EnumerateArray().Select(id => id.GetString()!).ToArray(),
                    change.GetProperty("at").GetDouble()
                )
            );
        return new(told.GetProperty("rate").GetInt32(), told.GetProperty("first").GetInt64(), samples, [.. changes]);
    }
}

/// <summary>What was heard at the loudspeaker.</summary>
/// <param name="Rate">Frames a second.</param>
/// <param name="First">Frame of the context at which the recording begins.</param>
/// <param name="Samples">The left channel.</param>
/// <param name="Changes">When the place in the drawing changed, in seconds of the context, and to which ids.</param>
internal sealed record Tapped(int Rate, long First, float[] Samples, (string[] Ids, double At)[] Changes)
{
    /// <summary>
    /// Seconds of the context at which notes begin: where the fast part of the sound (its second difference) suddenly has many
    /// times the energy that it had in the milliseconds before.
    /// </summary>
    public double[] Onsets(double apart = 0.06)
    {
        var window = Rate / 1000;
        var energy = new double[Samples.Length / window];
        for (var i = 0; i < energy.Length; i++)
        {
            for (var k = Math.Max(2, i * window); k < (i + 1) * window; k++)
            {
                double fast = Samples[k] - (2 * Samples[k - 1]) + Samples[k - 2];
                energy[i] += fast * fast;
            }
        }
        var loudest = energy.Length == 0 ? 0 : energy.Max();
        var onsets = new List<double>();
        for (var i = 0; i < energy.Length; i++)
        {
            var before = energy[Math.Max(0, i - 8)..i].DefaultIfEmpty().Max();
            var at = (First + ((double)i * window)) / Rate;
            if (energy[i] > 5 * before && energy[i] > 1e-3 * loudest && (onsets.Count == 0 || at - onsets[^1] > apart))
                onsets.Add(at);
        }
        return [.. onsets];
    }
}
