using System.Runtime.InteropServices;
using System.Text.Json;
using Microsoft.Playwright;

namespace Rollwright.EndToEnd.Playing;

/// <summary>
/// An empty page of a real browser that has the player's modules, served by the workbench; for questions about their sound.
/// </summary>
internal sealed class SoundPage : IAsyncDisposable
{
    private readonly IBrowserContext context;
    private readonly IPage page;

    private SoundPage(IBrowserContext context, IPage page) => (this.context, this.page) = (context, page);

    /// <summary>Skips the running test with a notice where there is no browser.</summary>
    public static async Task<SoundPage> Open()
    {
        var context = await (await Visitor.Browser()).NewContextAsync();
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(120_000);
        await page.GotoAsync($"{await Visitor.Address()}/assets/player/worklet.js");
        return new(context, page);
    }

    /// <summary>Both channels of what an offline context renders through the worklet, told these orders at its start.</summary>
    public Task<float[][]> ThroughTheWorklet(byte[] score, int rate, int frames, params object[] orders) =>
        Ask(
            """
            async ({ score, rate, frames, orders }) => {
              const context = new OfflineAudioContext(2, frames, rate);
              await context.audioWorklet.addModule("/assets/player/worklet.js");
              const options = { numberOfInputs: 0, outputChannelCount: [2], processorOptions: { score, start: orders } };
              const node = new AudioWorkletNode(context, "rollwright-player", options);
              node.connect(context.destination);
              const sound = await context.startRendering();
              return [sound.getChannelData(0), sound.getChannelData(1)].map(inBase64);
            }
            """,
            score,
            rate,
            frames,
            orders
        );

    /// <summary>
    /// The same by the engine alone, block by block; each order is done before the block of its frame ("at", 0 by default).
    /// </summary>
    public Task<float[][]> ByTheEngine(byte[] score, int rate, int frames, params object[] orders) =>
        Ask(
            """
            async ({ score, rate, frames, orders }) => {
              const { Engine } = await import("/assets/player/engine.js");
              const engine = new Engine(score, rate);
              const timed = ["play", "seek", "setTempo", "setLoop"];
              const [left, right] = [new Float32Array(frames), new Float32Array(frames)];
              for (let frame = 0; frame < frames; frame += 128) {
                for (const { at = 0, call, with: values = [] } of orders)
                  if (at >= frame && at < frame + 128) engine[call](...(timed.includes(call) ? [frame] : []), ...values);
                const until = Math.min(frames, frame + 128);
                engine.sound(left.subarray(frame, until), right.subarray(frame, until), frame, until - frame);
              }
              return [left, right].map(inBase64);
            }
            """,
            score,
            rate,
            frames,
            orders
        );

    /// <summary>What a script gives for an argument, as JSON.</summary>
    public async Task<JsonElement> Evaluate(string script, object argument) =>
        (await page.EvaluateAsync(script, argument))!.Value;

    public ValueTask DisposeAsync() => context.DisposeAsync();

    private async Task<float[][]> Ask(string script, byte[] score, int rate, int frames, object[] orders)
    {
        // A score is passed as text: the browser must read it as a page does.
        var run = $$"""
            async (asked) => {
              window.inBase64 = (values) => {
                const bytes = new Uint8Array(values.buffer);
                let text = "";
                for (let i = 0; i < bytes.length; i += 32768) text += String.fromCharCode(...bytes.subarray(i, i + 32768));
                return btoa(text);
              };
              return await ({{script}})({ ...asked, score: JSON.parse(asked.score) });
            }
            """;
        var channels = await page.EvaluateAsync<string[]>(
            run,
            new
            {
                score = System.Text.Encoding.UTF8.GetString(score),
                rate,
                frames,
                orders,
            }
        );
        return
        [
            .. channels.Select(channel => MemoryMarshal.Cast<byte, float>(Convert.FromBase64String(channel)).ToArray()),
        ];
    }
}
