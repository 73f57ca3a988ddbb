namespace Rollwright.Engraving.Drawing;

/// <summary>A point of the page, in points (1/72 inch), y downwards.</summary>
public readonly record struct Place(double X, double Y)
{
    public Place Moved(double dx, double dy) => new(X + dx, Y + dy);
}
