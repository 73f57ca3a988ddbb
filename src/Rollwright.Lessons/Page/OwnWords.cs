using Markdig;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Rollwright.Lessons.Documents;

namespace Rollwright.Lessons.Page;

/// <summary>
/// A person's words, in Markdown (CommonMark), as HTML. Markup in them is text, and links lead to pages and post alone: a
/// lesson is passed on to others.
/// </summary>
internal static class OwnWords
{
    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder().DisableHtml().Build();

    public static string ToHtml(string markdown)
    {
        var words = Markdown.Parse(markdown, Pipeline);
        foreach (var link in words.Descendants<LinkInline>())
            link.Url = SafeAddress.Of(link.Url) ?? "";
        foreach (var link in words.Descendants<AutolinkInline>())
            link.Url = link.IsEmail ? link.Url : SafeAddress.Of(link.Url) ?? "";
        return words.ToHtml(Pipeline);
    }
}
