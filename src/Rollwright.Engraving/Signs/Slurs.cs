using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Signs;

/// <summary>Slurs in the notation, on the side of the heads.</summary>
internal static class Slurs
{
    public static void Draw(Sheet sheet, SetSystem system, ImmutableArray<SlurLink> links, Sizes sizes)
    {
        foreach (var link in links)
        {
            var from = HeadOf(system, link.From, sizes);
            var to = HeadOf(system, link.To, sizes);
            if (from is null && to is null)
                continue;
            var up = (from ?? to)!.Value.Up;
            var off = (up ? 0.85 : -0.85) * sizes.Space;
            // A slur over the end of a system is shown by its halves.
            var start = from is { } head ? head.Place : new(to!.Value.Place.X - (3.5 * sizes.Space), to.Value.Place.Y);
            var end = to is { } other ? other.Place : new(system.Right, from!.Value.Place.Y);
            sheet.Add(
                Arcs.Between(InkKind.Slur, start.Moved(0, off), end.Moved(0, off), (up ? 1 : -1) * sizes.Space, sizes)
            );
        }
    }

    private static (Place Place, bool Up)? HeadOf(SetSystem system, StrokeName name, Sizes sizes)
    {
        foreach (var bar in system.Bars)
        {
            if (bar.Written.Index != name.Bar)
                continue;
            for (var i = 0; i < bar.Columns.Length; i++)
            {
                foreach (var note in bar.Written.Moments[i].Notes)
                {
                    if (note.Stroke == name.Index && !bar.Written.Moments[i].Continues)
                        return (new(bar.Columns[i], Staff.Y(note.Step, sizes)), bar.Bar.StemsUp[i]);
                }
            }
        }
        return null;
    }
}
