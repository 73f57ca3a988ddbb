using Rollwright.Engraving.Drawing;

namespace Rollwright.Engraving.Flow;

/// <summary>What is never cut: a line, a row, a figure. Its ink stands from x = 0 and y = 0 on.</summary>
/// <param name="Inks">The ink.</param>
/// <param name="Height">How much of the page it takes.</param>
/// <param name="Before">White above it, but not at the top of a page.</param>
/// <param name="KeepsNext">Whether the next piece stands on the same page.</param>
internal sealed record Piece(IReadOnlyList<Ink> Inks, double Height, double Before, bool KeepsNext = false)
{
    /// <summary>Whether it begins a page.</summary>
    public bool BeginsPage { get; init; }
}
