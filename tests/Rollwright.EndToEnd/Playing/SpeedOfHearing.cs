using Microsoft.Playwright;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Playing;

/// <summary>
/// No test but a measurement, run only when it is asked for (bench/README.md): milliseconds from the click on "Hear it" to the
/// lick's first sample at the loudspeaker, server, page and device's latency with it.
/// </summary>
[Collection(Alone.Name)]
public class SpeedOfHearing
{
    [Fact(Explicit = true)]
    public async Task How_long_after_the_click_a_lick_begins_to_sound()
    {
        var took = new List<double>();
        await using var visitor = await Visitor.Arrive(tapped: true);
        await visitor.Open("Wren on the Gatepost");
        var page = visitor.Page;
        await page.GetByLabel("A lick may make the break dearer by").SelectOptionAsync("6000");
        await page.Locator(".spots tbody tr").Nth(5).WaitForAsync();
        await page.Locator(".spots button").First.ClickAsync();
        await page.EvaluateAsync(
            "() => document.addEventListener('click', () => { tap.clicked = performance.now(); }, true)"
        );
        for (var round = 0; round < 9; round++)
        {
            var licks = page.Locator(".licks > li");
            await licks.First.WaitForAsync();
            var lick = licks.Nth(round % await licks.CountAsync());
            await page.EvaluateAsync("() => { tap.blocks = []; }");
            await lick.GetByRole(AriaRole.Button, new() { Name = "Hear it" }).ClickAsync();
            await page.WaitForFunctionAsync("() => document.querySelector('.ledge').dataset.hears !== ''");
            await page.WaitForTimeoutAsync(900);
            took.Add(
                await page.EvaluateAsync<double>(
                    """
                    () => {
                      const { contextTime, performanceTime } = tap.context.getOutputTimestamp();
                      const clock = (frame) => performanceTime + (frame / tap.context.sampleRate - contextTime) * 1000;
                      // Every sound that there was has a recorder of its own, which goes on with silence.
                      const heard = tap.blocks.filter((one) => one.heard.some((value) => value !== 0));
                      const first = Math.min(...heard.map((one) => one.frame).filter((frame) => clock(frame) > tap.clicked));
                      return clock(first) - tap.clicked;
                    }
                    """
                )
            );
            await lick.GetByRole(AriaRole.Button, new() { Name = "Stop" }).ClickAsync();
            await page.WaitForTimeoutAsync(300);
        }
        var first = took[0];
        took.Sort();
        TestContext.Current.SendDiagnosticMessage(
            $"{took[4]:0} ms (median of 9; {took[0]:0} to {took[^1]:0}; the first {first:0})"
        );
    }
}
