using Rollwright.Engraving.Drawing;

namespace Rollwright.Engraving.Systems;

/// <summary>Ink being laid for one system, and how high and low it reaches: what comes later keeps clear of it.</summary>
internal sealed class Sheet
{
    private readonly List<Ink> inks = [];

    public IReadOnlyList<Ink> Inks => inks;

    public void Add(Ink ink) => inks.Add(ink);

    /// <summary>Adds the ink of another sheet, moved down.</summary>
    public void Add(Sheet other, double dy)
    {
        foreach (var ink in other.inks)
            inks.Add(ink.Moved(0, dy));
    }

    /// <summary>The same ink moved to the right.</summary>
    public Sheet Moved(double dx)
    {
        var moved = new Sheet();
        foreach (var ink in inks)
            moved.Add(ink.Moved(dx, 0));
        return moved;
    }

    /// <summary>The highest ink between two places; <paramref name="otherwise"/> where it is lower or none is.</summary>
    public double TopOver(double left, double right, double otherwise)
    {
        var top = otherwise;
        foreach (var ink in inks)
        {
            if (ink.Box.Left < right && left < ink.Box.Right)
                top = Math.Min(top, ink.Box.Top);
        }
        return top;
    }

    public Box Box => Box.Around(inks.Select(ink => ink.Box));

    /// <summary>How far another sheet must be moved down so that its ink stays clear of the ink of this one.</summary>
    public double Below(Sheet other, double clear)
    {
        var down = double.NegativeInfinity;
        foreach (var upper in inks)
        {
            foreach (var lower in other.inks)
            {
                if (upper.Box.Left - clear < lower.Box.Right && lower.Box.Left < upper.Box.Right + clear)
                    down = Math.Max(down, upper.Box.Bottom - lower.Box.Top + clear);
            }
        }
        return down;
    }
}
