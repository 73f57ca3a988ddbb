using System.Text.Json;
using Microsoft.Playwright;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd;

/// <summary>
/// The outside judge of pages for people who read by ear or by keyboard: axe-core (a package of npm, test-only, see
/// axe/package.json), which checks the rules of WCAG 2.2, W3C's accessibility guidelines, that a machine can check.
/// </summary>
internal static class Axe
{
    /// <summary>What is serious or critical, one line each: the rule, what it says, and where; skips the test without axe-core.</summary>
    public static async Task<List<string>> Findings(IPage page)
    {
        var script = Path.Combine(
            Places.Root,
            "tests",
            "Rollwright.EndToEnd",
            "axe",
            "node_modules",
            "axe-core",
            "axe.min.js"
        );
        Assert.SkipUnless(File.Exists(script), "needs axe-core (./test installs it by npm), which is not installed");
        // Evaluated by the debugger: the page's own policy lets in no script from elsewhere.
        await page.EvaluateAsync(await File.ReadAllTextAsync(script));
        var answer = await page.EvaluateAsync<JsonElement>(
            """
            () => axe.run(document, { resultTypes: ['violations'] }).then(found => found.violations
              .filter(one => one.impact === 'serious' || one.impact === 'critical')
              .flatMap(one => one.nodes.map(node => `${one.id}: ${one.help}: ${node.target.join(' ')}: ${node.failureSummary}`)))
            """
        );
        return [.. answer.EnumerateArray().Select(line => line.GetString()!)];
    }
}
