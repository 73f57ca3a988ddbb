namespace Rollwright.Engraving.Drawing;

/// <summary>A straight line from one place to another.</summary>
public readonly record struct Segment(Place From, Place To)
{
    public Segment(double x1, double y1, double x2, double y2)
        : this(new(x1, y1), new(x2, y2)) { }

    public Segment Moved(double dx, double dy) => new(From.Moved(dx, dy), To.Moved(dx, dy));

    /// <summary>The room it takes when drawn with flat ends.</summary>
    public Box BoxOf(double thickness)
    {
        var half = thickness / 2;
        var acrossX = From.X == To.X ? half : 0;
        var acrossY = From.Y == To.Y ? half : 0;
        return new(
            Math.Min(From.X, To.X) - acrossX,
            Math.Min(From.Y, To.Y) - acrossY,
            Math.Max(From.X, To.X) + acrossX,
            Math.Max(From.Y, To.Y) + acrossY
        );
    }
}
