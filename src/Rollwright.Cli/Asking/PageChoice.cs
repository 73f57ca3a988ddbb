using Rollwright.Engraving;

namespace Rollwright.Cli.Asking;

/// <summary>How a page is asked for.</summary>
/// <param name="Paper">Null for the usual one of the form: A4 for pdf, a column for png and svg.</param>
/// <param name="Change">What is shown and hidden on it.</param>
/// <param name="Spots">Whether spots are marked.</param>
/// <param name="Dpi">Dots per inch of pictures; null for the usual.</param>
internal sealed record PageChoice(PageStyle? Paper, Func<PageStyle, PageStyle> Change, bool Spots, double? Dpi);
