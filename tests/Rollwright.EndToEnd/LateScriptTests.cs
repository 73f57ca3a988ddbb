using Microsoft.Playwright;

namespace Rollwright.EndToEnd;

/// <summary>The parts of the page whose scripts are still on the way when another tune takes the place.</summary>
public class LateScriptTests
{
    private const string Tune = """
        X:1
        T:Slow Cart
        M:2/2
        L:1/8
        K:D
        |:"D"d2fd a2fd|"A7"e2ce "D"d4:|
        """;

    [Theory]
    [InlineData("player.js")]
    [InlineData("steps.js")]
    public async Task Another_tune_may_come_before_the_script_of_a_part_of_the_page(string script)
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Ready();
        var page = visitor.Page;
        var gate = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        await page.RouteAsync(
            $"**/assets/{script}",
            async route =>
            {
                await gate.Task;
                await route.ContinueAsync();
            }
        );
        await page.ReloadAsync();
        await page.Locator("#break-title").WaitForAsync();
        await visitor.Write(Tune);
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Slow Cart");
        gate.SetResult();
        await page.Locator(".ledge[data-piece^='Slow Cart'][data-ready]").WaitForAsync();
        await visitor.ChooseFirstStep();
        visitor.Complaints.Should().BeEmpty();
    }
}
