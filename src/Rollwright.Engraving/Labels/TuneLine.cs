using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Signs;
using Rollwright.Engraving.Spacing;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Labels;

/// <summary>
/// The tune itself as a small line above the system, each note over the moment of the break at which it is due: what the
/// break keeps, moves or leaves out is seen at a glance.
/// </summary>
internal static class TuneLine
{
    private const double Smaller = 0.66;

    /// <param name="lowest">Where it ends at the lowest.</param>
    /// <param name="withFates">Whether its notes are joined to the strokes that play them.</param>
    public static void Draw(Sheet sheet, SetSystem system, Break played, double lowest, bool withFates, Sizes sizes)
    {
        var small = new Sizes(sizes.Scale * Smaller);
        var line = new Sheet();
        Staff.Draw(line, system, small);
        var clef = new Sign(
            InkKind.Clef,
            Glyph.TrebleClef8Below,
            system.Left + (0.9 * small.Space),
            small.Space,
            small.Space
        );
        line.Add(clef);
        KeySignatures.Draw(line, played.Setting.Position, clef.Box.Right + (0.7 * small.Space), small);
        BarLines.Draw(line, system, Staff.Top(small), Staff.Bottom(small), small);
        var any = false;
        foreach (var bar in system.Bars)
        {
            if (BreakReading.ReadTune(played, bar.Written.Index) is not { } written)
                continue;
            any = true;
            var set = Over(bar, written, withFates);
            NoteHeads.Draw(line, set, small);
            Rests.Draw(line, set, small);
            Stems.Draw(line, set, small);
            Beams.Draw(line, set, small);
            Ties.Draw(line, set, small);
            Tuplets.Draw(line, set, Staff.Top(small), small);
        }
        if (!any)
            return;
        var down = Math.Min(
            lowest - Staff.Bottom(small) - ((withFates ? 10 : 5) * sizes.Scale),
            -line.Below(sheet, sizes.Clear)
        );
        var fates = withFates ? new FateJoins(played, sheet, sizes) : null;
        foreach (var ink in line.Inks)
        {
            var moved = ink.Moved(0, down);
            if (ink is Sign { Kind: InkKind.NoteHead, Stroke: { } note })
                moved = fates?.Join((Sign)moved, note) ?? moved;
            sheet.Add(moved with { Kind = InkKind.TuneLine, Stroke = null });
        }
        if (fates is not null)
            sheet.Add(fates.Sheet, 0);
    }

    private static SetBar Over(SetBar bar, WrittenBar tune, bool withFates)
    {
        // Joins go down from the heads: stems keep out of their way.
        var up = withFates ? [.. tune.Moments.Select(_ => true)] : StemDirections.Of(tune);
        ImmutableArray<HeadStack> stacks = [.. tune.Moments.Select((moment, i) => HeadStack.Of(moment, up[i]))];
        return new(
            new(tune, up, stacks, bar.Bar.Front, [], bar.Bar.Back, NewTime: false),
            bar.Left,
            bar.Right,
            [.. tune.Moments.Select(moment => bar.XAt(moment.At))]
        );
    }
}
