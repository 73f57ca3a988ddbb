namespace Rollwright.Formats.TextTab;

/// <summary>How tab is set in plain text.</summary>
/// <param name="Width">Most characters of a line, 40 and more; 80 fits mails and posts.</param>
/// <param name="LeftFingers">Whether a row of left-hand fingers stands above the strings.</param>
public sealed record TextTabOptions(int Width = 80, bool LeftFingers = false)
{
    public static TextTabOptions Default { get; } = new();
}
