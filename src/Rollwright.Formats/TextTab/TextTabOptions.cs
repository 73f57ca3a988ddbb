using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Formats.TextTab;

/// <summary>How tab is set in plain text.</summary>
/// <param name="Width">Most characters of a line, 40 and more; 80 fits mails and posts.</param>
/// <param name="LeftFingers">Whether a row of left-hand fingers stands above the strings.</param>
public sealed record TextTabOptions(int Width = 80, bool LeftFingers = false)
{
    /// <summary>A short mark under a stroke, in a row of its own under the fingers; a reader of tab takes no notice of it.</summary>
    public ImmutableDictionary<StrokeName, string> Marks { get; init; } = ImmutableDictionary<StrokeName, string>.Empty;

    public static TextTabOptions Default { get; } = new();
}
