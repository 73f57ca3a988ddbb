namespace Rollwright.Engraving.Flow;

/// <summary>The paper of a text, printed on both sides and bound; lengths are points (1/72 inch).</summary>
/// <param name="Width">Of the page.</param>
/// <param name="Height">Of the page.</param>
public sealed record FlowStyle(double Width, double Height)
{
    /// <summary>White towards the binding: left on pages with odd numbers, right on the others.</summary>
    public double Inner { get; init; } = 68;

    /// <summary>White away from the binding.</summary>
    public double Outer { get; init; } = 46;

    public double Top { get; init; } = 52;

    public double Bottom { get; init; } = 54;

    /// <summary>Of the text's font.</summary>
    public double Size { get; init; } = 10.5;

    /// <summary>At the head of all pages but the first; none where empty.</summary>
    public string RunningTitle { get; init; } = "";

    /// <summary>Whether pages have numbers.</summary>
    public bool IsNumbered { get; init; } = true;

    public double TextWidth => Width - Inner - Outer;

    public double TextHeight => Height - Top - Bottom;

    /// <exception cref="ArgumentException">There is no room for text.</exception>
    internal static void Check(FlowStyle style)
    {
        if (style.TextWidth is not >= 150 || style.TextHeight is not >= 200 || style.Size is not (>= 5 and <= 30))
            throw new ArgumentException(
                $"A page of {style.Width:0} by {style.Height:0} points leaves no room for text; take larger paper.",
                nameof(style)
            );
    }
}
