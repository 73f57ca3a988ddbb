using System.Collections.Immutable;
using Markdig;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Rollwright.Engraving.Drawing;

namespace Rollwright.Lessons.Documents;

/// <summary>What whoever teaches says first: text, pictures, links, credit, licence, in Markdown.</summary>
/// <param name="Markdown">The text; empty for none.</param>
/// <param name="Pictures">Pictures beside it, by the address that the text has for them.</param>
public sealed record Introduction(string Markdown, ImmutableDictionary<string, PictureFile> Pictures)
{
    public static Introduction None { get; } = new("", ImmutableDictionary<string, PictureFile>.Empty);

    /// <summary>A text without pictures.</summary>
    public static Introduction Of(string markdown) => None with { Markdown = markdown };

    /// <summary>A picture that a text shows.</summary>
    /// <param name="Address">As it stands there.</param>
    /// <param name="Line">From 1.</param>
    /// <param name="Column">From 1.</param>
    public readonly record struct Place(string Address, int Line, int Column);

    /// <summary>The pictures that a text shows, in order.</summary>
    public static ImmutableArray<Place> PicturesIn(string markdown) =>
        [
            .. Markdig
                .Markdown.Parse(markdown, OwnMarkdown.Pipeline)
                .Descendants<LinkInline>()
                .Where(link => link.IsImage)
                .Select(link => new Place(link.Url ?? "", link.Line + 1, link.Column + 1)),
        ];

    /// <summary>Where a picture lies, from the text's folder; null where it is not beside the text, or would take the place of something else.</summary>
    public static string? PathOf(string address)
    {
        var path = Uri.UnescapeDataString(address);
        var isBeside =
            path.Length > 0
            && !path.Contains('\\', StringComparison.Ordinal)
            && !path.Contains(':', StringComparison.Ordinal)
            && !path.Any(char.IsControl)
            && path.Split('/').All(name => name is not ("" or "." or ".."));
        var isTaken =
            path.StartsWith("figures/", StringComparison.OrdinalIgnoreCase)
            || path.StartsWith("article.", StringComparison.OrdinalIgnoreCase)
            || path.Equals("tab.txt", StringComparison.OrdinalIgnoreCase);
        return isBeside && !isTaken ? path : null;
    }
}
