using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Spacing;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Signs;

/// <summary>Heads with their accidentals, dots and ledger lines.</summary>
internal static class NoteHeads
{
    public static void Draw(Sheet sheet, SetBar bar, Sizes sizes)
    {
        for (var i = 0; i < bar.Columns.Length; i++)
        {
            var moment = bar.Written.Moments[i];
            if (moment.IsRest)
                continue;
            var stack = bar.Bar.Stacks[i];
            DrawLedgerLines(sheet, stack, bar.Columns[i], sizes);
            foreach (var head in stack.Heads)
            {
                var sign = new Sign(
                    InkKind.NoteHead,
                    Glyph.Head(moment.Value.Denominator),
                    bar.Columns[i] + (head.X * sizes.Space),
                    Staff.Y(head.Step, sizes),
                    sizes.Space
                );
                sheet.Add(moment.Continues ? sign : sign with { Stroke = new(bar.Written.Index, head.Stroke) });
            }
            foreach (var accidental in stack.Accidentals)
                sheet.Add(
                    new Sign(
                        InkKind.Accidental,
                        accidental.Glyph,
                        bar.Columns[i] + (accidental.X * sizes.Space),
                        Staff.Y(accidental.Step, sizes),
                        sizes.Space
                    )
                );
            DrawDots(sheet, moment, stack, bar.Columns[i], sizes);
        }
    }

    private static void DrawLedgerLines(Sheet sheet, HeadStack stack, double x, Sizes sizes)
    {
        var left = x + (stack.Heads.Min(head => head.X) * sizes.Space) - sizes.LedgerExtension;
        var right = x + ((stack.Heads.Max(head => head.X) + stack.HeadWidth) * sizes.Space) + sizes.LedgerExtension;
        for (var step = 6; step <= stack.Heads.Max(head => head.Step); step += 2)
            Ledger(step);
        for (var step = -6; step >= stack.Heads.Min(head => head.Step); step -= 2)
            Ledger(step);

        void Ledger(int step)
        {
            var y = Staff.Y(step, sizes);
            sheet.Add(new Rules(InkKind.LedgerLine, [new(left, y, right, y)], sizes.LedgerLine));
        }
    }

    private static void DrawDots(Sheet sheet, WrittenMoment moment, HeadStack stack, double x, Sizes sizes)
    {
        // A dot never stands on a line: the head's own space, or the one above.
        foreach (var step in stack.Heads.Select(head => head.Step % 2 == 0 ? head.Step + 1 : head.Step).Distinct())
            Dots.Draw(sheet, moment.Value.Dots, x + (stack.DotX * sizes.Space), Staff.Y(step, sizes), sizes);
    }
}
