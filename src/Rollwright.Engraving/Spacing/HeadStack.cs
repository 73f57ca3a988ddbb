using System.Collections.Immutable;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;

namespace Rollwright.Engraving.Spacing;

/// <summary>A head and its place: x of its left edge from the middle of the column, in staff spaces.</summary>
internal readonly record struct PlacedHead(int Step, double X, int Stroke);

/// <summary>An accidental and its place: x of its left edge from the middle of the column, in staff spaces.</summary>
internal readonly record struct PlacedAccidental(int Step, double X, Glyph Glyph);

/// <summary>
/// The heads of one moment side by side and one above the other, with their accidentals and dots. Heads a second (or
/// nothing) apart stand on both sides of the stem. Measures are staff spaces from the middle of the column.
/// </summary>
internal sealed record HeadStack(
    ImmutableArray<PlacedHead> Heads,
    ImmutableArray<PlacedAccidental> Accidentals,
    double HeadWidth,
    double Left,
    double Right
)
{
    private const double AccidentalGap = 0.22;
    private const double DotGap = 0.45;

    // Where heads go, in turn: on the stem's usual side, on its other side, and beyond for notes of one pitch.
    private static readonly int[] Slots = [0, 1, -1, 2, -2];

    /// <summary>Steps between which two accidentals above each other would touch.</summary>
    private const int AccidentalReach = 7;

    public static HeadStack Of(WrittenMoment moment, bool up)
    {
        if (moment.IsRest)
        {
            var half = MusicFont.WidthOf(Glyph.Rest(moment.Value.Denominator)) / 2;
            return new([], [], 2 * half, -half, half + DotsWidth(moment));
        }
        var width = MusicFont.WidthOf(Glyph.Head(moment.Value.Denominator));
        var heads = PlaceHeads(moment, up, width);
        var left = heads.Min(head => head.X);
        var right = heads.Max(head => head.X) + width;
        var accidentals = PlaceAccidentals(moment, left);
        if (accidentals.Length > 0)
            left = accidentals.Min(accidental => accidental.X);
        if (moment is { Beam: < 0, Value.Flags: > 0 } && up)
            right = Math.Max(right, (width / 2) + MusicFont.WidthOf(Glyph.Flag(moment.Value.Flags, up: true)));
        return new(heads, accidentals, width, left, right + DotsWidth(moment));
    }

    /// <summary>Left edge of the first dot.</summary>
    public double DotX => Heads.IsEmpty ? (HeadWidth / 2) + DotGap : Heads.Max(head => head.X) + HeadWidth + DotGap;

    private static double DotsWidth(WrittenMoment moment) =>
        moment.Value.Dots * (DotGap + MusicFont.WidthOf(Glyph.Dot));

    private static ImmutableArray<PlacedHead> PlaceHeads(WrittenMoment moment, bool up, double width)
    {
        // From the end of the stem's root: the lowest for stems up, the highest for stems down.
        var order = up ? moment.Notes : [.. moment.Notes.Reverse()];
        var heads = ImmutableArray.CreateBuilder<PlacedHead>(order.Length);
        var slots = new List<(int Slot, int Step)>();
        foreach (var note in order)
        {
            var slot = Slots.First(slot => !slots.Exists(other => Touch(other, (slot, note.Step))));
            slots.Add((slot, note.Step));
            // A head beside the stem overlaps it by the stem's thickness.
            var shift = slot * (width - 0.12);
            heads.Add(new(note.Step, (-width / 2) + (up ? shift : -shift), note.Stroke));
        }
        return heads.MoveToImmutable();
    }

    private static bool Touch((int Slot, int Step) one, (int Slot, int Step) other) =>
        one.Slot == other.Slot && Math.Abs(one.Step - other.Step) <= 1;

    private static ImmutableArray<PlacedAccidental> PlaceAccidentals(WrittenMoment moment, double left)
    {
        // Each column has its right edge in common; the next one starts left of its widest sign.
        var columns = new List<(int LastStep, double Left, double Right)>();
        var placed = ImmutableArray.CreateBuilder<PlacedAccidental>();
        foreach (var note in moment.Notes.Reverse())
        {
            if (note.Accidental is not { } alter)
                continue;
            var glyph = Glyph.Accidental(alter);
            var width = MusicFont.WidthOf(glyph);
            // A sign joins a column that it does not touch; only the last column may grow wider.
            var index = columns.FindIndex(item =>
                item.LastStep - note.Step >= AccidentalReach && (item == columns[^1] || width <= item.Right - item.Left)
            );
            if (index < 0)
            {
                var right = (columns.Count > 0 ? columns.Min(item => item.Left) : left) - AccidentalGap;
                columns.Add((note.Step, right - width, right));
                index = columns.Count - 1;
            }
            var column = columns[index];
            columns[index] = (note.Step, Math.Min(column.Left, column.Right - width), column.Right);
            placed.Add(new(note.Step, column.Right - width, glyph));
        }
        return placed.ToImmutable();
    }
}
