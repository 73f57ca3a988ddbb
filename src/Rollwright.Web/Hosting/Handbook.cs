using System.Collections.Immutable;
using System.Text;
using Markdig;

namespace Rollwright.Web.Hosting;

/// <summary>The handbook: files of <c>docs/</c> that travel inside the program, in the order in which one reads them.</summary>
public static class Handbook
{
    private static readonly string[] Names =
    [
        "first-break",
        "jobs",
        "costs",
        "licks",
        "formats",
        "pages",
        "lessons",
        "practice",
        "listening",
        "library",
        "class",
        "questions",
    ];

    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder()
        .UsePipeTables()
        .DisableHtml()
        .Build();

    private static readonly Lazy<ImmutableArray<HandbookPage>> All = new(() => [.. Names.Select(Read)]);

    public static ImmutableArray<HandbookPage> Pages => All.Value;

    /// <summary>Null where no page has the name.</summary>
    public static HandbookPage? Find(string name) => Pages.FirstOrDefault(page => page.Name == name);

    /// <summary>A picture of the workbench, PNG, by its file name; null where there is none.</summary>
    public static Stream? Picture(string name) =>
        typeof(Handbook).Assembly.GetManifestResourceStream($"handbook/pictures/{name}");

    private static HandbookPage Read(string name)
    {
        using var stream = typeof(Handbook).Assembly.GetManifestResourceStream($"handbook/{name}.md")!;
        var text = new StreamReader(stream, Encoding.UTF8).ReadToEnd();
        var title = text.AsSpan(0, text.IndexOf('\n', StringComparison.Ordinal)).TrimStart("# ").Trim().ToString();
        // What is wider than the page scrolls by itself: by the keyboard too.
        var html = Markdown
            .ToHtml(text, Pipeline)
            .Replace("<pre>", "<pre tabindex=\"0\">", StringComparison.Ordinal)
            .Replace("<table>", "<table tabindex=\"0\">", StringComparison.Ordinal);
        return new(name, title, html);
    }
}

/// <summary>A page of it.</summary>
/// <param name="Name">As in its address: lower case, words joined by hyphens.</param>
/// <param name="Title">Its heading.</param>
/// <param name="Html">What stands on it, from our own text; markup in it would have been shown as text.</param>
public sealed record HandbookPage(string Name, string Title, string Html);
