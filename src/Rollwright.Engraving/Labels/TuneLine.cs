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

    public static void Draw(Sheet sheet, SetSystem system, Break played, double lowest, Sizes sizes)
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
            var set = Over(bar, written);
            NoteHeads.Draw(line, set, small);
            Rests.Draw(line, set, small);
            Stems.Draw(line, set, small);
            Beams.Draw(line, set, small);
            Ties.Draw(line, set, small);
            Tuplets.Draw(line, set, Staff.Top(small), small);
        }
        if (!any)
            return;
        var down = Math.Min(lowest - Staff.Bottom(small) - (5 * sizes.Scale), -line.Below(sheet, sizes.Clear));
        foreach (var ink in line.Inks)
            sheet.Add(ink.Moved(0, down) with { Kind = InkKind.TuneLine, Stroke = null });
    }

    private static SetBar Over(SetBar bar, WrittenBar tune)
    {
        var up = StemDirections.Of(tune);
        ImmutableArray<HeadStack> stacks = [.. tune.Moments.Select((moment, i) => HeadStack.Of(moment, up[i]))];
        return new(
            new(tune, up, stacks, bar.Bar.Front, [], bar.Bar.Back, NewTime: false),
            bar.Left,
            bar.Right,
            [.. tune.Moments.Select(moment => bar.XAt(moment.At))]
        );
    }
}
