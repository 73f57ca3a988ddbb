using Markdig;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace Rollwright.Lessons.Page;

/// <summary>
/// A person's words, in Markdown (CommonMark), as HTML. Markup in them is text, and links lead to pages and post alone: a
/// lesson is passed on to others.
/// </summary>
internal static class OwnWords
{
    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder().DisableHtml().Build();

    private static readonly string[] Schemes = ["http", "https", "mailto"];

    public static string ToHtml(string markdown)
    {
        var words = Markdown.Parse(markdown, Pipeline);
        foreach (var link in words.Descendants<LinkInline>())
        {
            if (!IsSafe(link.Url))
                link.Url = "";
        }
        foreach (var link in words.Descendants<AutolinkInline>())
        {
            if (!link.IsEmail && !IsSafe(link.Url))
                link.Url = "";
        }
        return words.ToHtml(Pipeline);
    }

    private static bool IsSafe(string? address) =>
        Uri.TryCreate(address, UriKind.Absolute, out var uri)
            ? Schemes.Contains(uri.Scheme)
            : Uri.TryCreate(address, UriKind.Relative, out _);
}
