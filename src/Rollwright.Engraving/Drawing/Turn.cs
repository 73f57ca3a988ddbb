namespace Rollwright.Engraving.Drawing;

/// <summary>One side of a filled shape: a straight line to a place, or a cubic curve with two control places.</summary>
public readonly record struct Turn(Place To, Place? Control1 = null, Place? Control2 = null)
{
    public Turn Moved(double dx, double dy) => new(To.Moved(dx, dy), Control1?.Moved(dx, dy), Control2?.Moved(dx, dy));

    // A cubic from its start reaches at most three quarters of the way to its control places (both at one height).
    internal Box ReachFrom(Place start)
    {
        var box = Of(start).With(Of(To));
        if (Control1 is { } first)
            box = box.With(Of(new(first.X, start.Y + ((first.Y - start.Y) * 0.75))));
        if (Control2 is { } second)
            box = box.With(Of(new(second.X, start.Y + ((second.Y - start.Y) * 0.75))));
        return box;
    }

    private static Box Of(Place place) => new(place.X, place.Y, place.X, place.Y);
}
