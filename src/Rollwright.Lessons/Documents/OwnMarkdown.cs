using Markdig;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace Rollwright.Lessons.Documents;

/// <summary>
/// How a person's Markdown is read (CommonMark and tables), wherever it goes. Markup in it is text, and links lead to pages,
/// post and files beside it alone: a lesson is passed on to others.
/// </summary>
internal static class OwnMarkdown
{
    public static MarkdownPipeline Pipeline { get; } =
        new MarkdownPipelineBuilder().UsePipeTables().DisableHtml().Build();

    public static MarkdownDocument Parse(string markdown)
    {
        var tree = Markdown.Parse(markdown, Pipeline);
        foreach (var link in tree.Descendants<LinkInline>())
            link.Url = SafeAddress.Of(link.Url);
        foreach (var link in tree.Descendants<AutolinkInline>())
            link.Url = SafeAddress.Of(link.IsEmail ? $"mailto:{link.Url}" : link.Url) is null ? "" : link.Url;
        return tree;
    }

    /// <summary>As a part of a page that stands alone: its headings below the page's own, its pictures inside.</summary>
    public static string ToHtml(string markdown, Introduction? pictures = null)
    {
        var tree = Parse(markdown);
        foreach (var heading in tree.Descendants<HeadingBlock>())
            heading.Level = Math.Min(heading.Level + 1, 6);
        foreach (var image in tree.Descendants<LinkInline>().Where(link => link.IsImage))
        {
            if (pictures?.Pictures.TryGetValue(image.Url ?? "", out var picture) == true)
                image.Url = $"data:{picture.MediaType};base64,{Convert.ToBase64String(picture.Bytes)}";
        }
        return tree.ToHtml(Pipeline);
    }
}
