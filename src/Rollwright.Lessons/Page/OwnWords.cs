using Markdig;

namespace Rollwright.Lessons.Page;

/// <summary>A person's words, in Markdown (CommonMark), as HTML. Markup in them is text: a lesson is passed on to others.</summary>
internal static class OwnWords
{
    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder().DisableHtml().Build();

    public static string ToHtml(string markdown) => Markdown.ToHtml(markdown, Pipeline);
}
