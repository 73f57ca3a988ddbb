using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;

namespace Rollwright.Lessons.Documents;

/// <summary>What whoever teaches says first: text, pictures, links, credit, licence, in Markdown.</summary>
/// <param name="Markdown">The text; empty for none.</param>
/// <param name="Pictures">Pictures beside it, by the address that the text has for them.</param>
public sealed record Introduction(string Markdown, ImmutableDictionary<string, PictureFile> Pictures)
{
    public static Introduction None { get; } = new("", ImmutableDictionary<string, PictureFile>.Empty);
}
