namespace Rollwright.Engraving.Drawing;

/// <summary>A rectangle on the page, in points (1/72 inch), y downwards.</summary>
public readonly record struct Box(double Left, double Top, double Right, double Bottom)
{
    public double Width => Right - Left;

    public double Height => Bottom - Top;

    public Box Moved(double dx, double dy) => new(Left + dx, Top + dy, Right + dx, Bottom + dy);

    /// <summary>The same box with room around it (less room where negative).</summary>
    public Box Grown(double by) => new(Left - by, Top - by, Right + by, Bottom + by);

    /// <summary>The smallest box that holds both.</summary>
    public Box With(Box other) =>
        new(
            Math.Min(Left, other.Left),
            Math.Min(Top, other.Top),
            Math.Max(Right, other.Right),
            Math.Max(Bottom, other.Bottom)
        );

    /// <summary>Whether the two share more than an edge.</summary>
    public bool Overlaps(Box other) =>
        Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

    /// <summary>The smallest box that holds all; nothing for none.</summary>
    public static Box Around(IEnumerable<Box> boxes)
    {
        Box? all = null;
        foreach (var box in boxes)
            all = all?.With(box) ?? box;
        return all ?? default;
    }
}
