using Rollwright.Engraving;

namespace Rollwright.Lessons.Documents;

/// <summary>How the figures of a document are drawn; lengths are points (1/72 inch).</summary>
/// <param name="Column">Width of a figure.</param>
/// <param name="Whole">Width of the whole break.</param>
/// <param name="WholeHeight">Height of its pages; null for one page as long as the music.</param>
/// <param name="Page">What is shown; its paper does not count.</param>
/// <param name="IsNumbered">Whether captions begin with "Figure 3.".</param>
internal sealed record FigureLook(double Column, double Whole, double? WholeHeight, PageStyle Page, bool IsNumbered);
