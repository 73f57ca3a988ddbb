using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Signs;

/// <summary>The shape of slurs and ties: thin at the ends, thick in the middle.</summary>
internal static class Arcs
{
    /// <param name="from">Left end.</param>
    /// <param name="to">Right end.</param>
    /// <param name="rise">Points that the middle stands off the ends; negative is upwards.</param>
    public static Shape Between(InkKind kind, Place from, Place to, double rise, Sizes sizes)
    {
        // A cubic reaches three quarters of the height of its control places.
        var outer = (rise / 0.75) + (Math.Sign(rise) * sizes.SlurMiddle * 0.5);
        var inner = (rise / 0.75) - (Math.Sign(rise) * sizes.SlurMiddle * 0.5);
        var end = sizes.SlurEnd / 2;
        var third = (to.X - from.X) * 0.28;
        Place first = new(from.X + third, from.Y),
            second = new(to.X - third, to.Y);
        return new(
            kind,
            from.Moved(0, -end),
            [
                new(
                    to.Moved(0, -end),
                    first.Moved(0, rise < 0 ? outer : inner),
                    second.Moved(0, rise < 0 ? outer : inner)
                ),
                new(to.Moved(0, end)),
                new(
                    from.Moved(0, end),
                    second.Moved(0, rise < 0 ? inner : outer),
                    first.Moved(0, rise < 0 ? inner : outer)
                ),
            ]
        );
    }
}
