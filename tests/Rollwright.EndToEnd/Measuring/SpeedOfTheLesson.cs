using System.Diagnostics;
using System.Globalization;
using Rollwright.Arranging;
using Rollwright.Formats.Abc;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Page;
using Rollwright.Lessons.Plan;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Measuring;

/// <summary>
/// No tests but measurements, run only when they are asked for (bench/README.md): how soon a lesson's page can be used, and how
/// soon it is there again after a person has put other words to a phrase.
/// </summary>
[Collection(Alone.Name)]
public class SpeedOfTheLesson
{
    private const int Rounds = 15;

    [Theory(Explicit = true)]
    [InlineData("../shared/tunes/soldiers-joy.abc")]
    [InlineData("data/demo/wren-on-the-gatepost.abc")]
    public async Task How_soon_the_page_is_usable_and_there_again_after_an_edit(string tune)
    {
        var file = Path.Combine(Places.Root, tune);
        var made = Arranger.Arrange(AbcReader.Read(await File.ReadAllBytesAsync(file), file).Tunes[0]);
        var lesson = Lesson.Of(LessonPlan.Of(made, ArrangeOptions.Default.Level), made);
        var (opened, written) = (new List<double>(), new List<double>());
        for (var round = 0; round < Rounds; round++)
        {
            var edited = lesson with { Edits = lesson.Edits.With(made.Break, 1, $"Words, {round}.") };
            var since = Stopwatch.GetTimestamp();
            var html = LessonPage.Write(edited);
            written.Add(Stopwatch.GetElapsedTime(since).TotalMilliseconds);
            opened.Add(await Open(html));
        }
        TestContext.Current.SendDiagnosticMessage(
            $"{Path.GetFileName(tune)}: {Of("page usable", opened)}; {Of("page written again", written)}"
        );
    }

    // From the navigation's begin, by the browser's own clock, to the player's word that it is ready.
    private static async Task<double> Open(string html)
    {
        var folder = Directory.CreateTempSubdirectory("rollwright-page-");
        try
        {
            var file = Path.Combine(folder.FullName, "lesson.html");
            await File.WriteAllTextAsync(file, html);
            await using var context = await (await Visitor.Browser()).NewContextAsync(new() { Offline = true });
            var page = await context.NewPageAsync();
            await page.AddInitScriptAsync(
                """
                new MutationObserver(() => {
                  if (!window.readyAt && document.querySelector(".ledge[data-ready]")) window.readyAt = performance.now();
                }).observe(document, { attributes: true, subtree: true, attributeFilter: ["data-ready"] });
                """
            );
            await page.GotoAsync(new Uri(file).AbsoluteUri);
            await page.WaitForFunctionAsync("() => window.readyAt > 0");
            return await page.EvaluateAsync<double>("() => window.readyAt");
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static string Of(string what, List<double> waits)
    {
        var sorted = waits.Order().ToList();
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{what} {sorted[sorted.Count / 2]:0} ms half, {sorted[^1]:0} ms longest of {sorted.Count} (first {waits[0]:0})"
        );
    }
}
