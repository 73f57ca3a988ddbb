using System.Collections.Immutable;
using Markdig.Syntax.Inlines;

namespace Rollwright.Lessons.Documents;

/// <summary>Text as it is set.</summary>
/// <param name="Link">Where it leads; null where it leads nowhere.</param>
internal sealed record StyledRun(string Text, bool IsBold, bool IsItalic, string? Link)
{
    public bool IsLineBreak => Text == "\n";
}

/// <summary>The inlines of a tree as runs of text, for printers that know no tree.</summary>
internal static class InlineRuns
{
    public static ImmutableArray<StyledRun> Of(ContainerInline? inlines)
    {
        var runs = ImmutableArray.CreateBuilder<StyledRun>();
        if (inlines is not null)
            Add(runs, inlines, new("", false, false, null));
        return runs.ToImmutable();
    }

    public static string PlainOf(ContainerInline? inlines) =>
        string.Concat(Of(inlines).Select(run => run.IsLineBreak ? " " : run.Text));

    private static void Add(ImmutableArray<StyledRun>.Builder runs, ContainerInline inlines, StyledRun style)
    {
        foreach (var inline in inlines)
        {
            switch (inline)
            {
                case LiteralInline literal:
                    runs.Add(style with { Text = literal.Content.ToString() });
                    break;
                case CodeInline code:
                    runs.Add(style with { Text = code.Content });
                    break;
                case HtmlEntityInline entity:
                    runs.Add(style with { Text = entity.Transcoded.ToString() });
                    break;
                case LineBreakInline line:
                    runs.Add(style with { Text = line.IsHard ? "\n" : " " });
                    break;
                case AutolinkInline link:
                    runs.Add(style with { Text = link.Url, Link = link.IsEmail ? $"mailto:{link.Url}" : link.Url });
                    break;
                case EmphasisInline { DelimiterCount: >= 2 } strong:
                    Add(runs, strong, style with { IsBold = true });
                    break;
                case EmphasisInline emphasis:
                    Add(runs, emphasis, style with { IsItalic = true });
                    break;
                case LinkInline link:
                    Add(runs, link, style with { Link = link.IsImage ? style.Link : link.Url });
                    break;
                case ContainerInline other:
                    Add(runs, other, style);
                    break;
            }
        }
    }
}
