using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Forms;

namespace Rollwright.Engraving.Labels;

/// <summary>Brackets over first and second endings, and how often a repeat is played where it is more than twice.</summary>
internal static class EndingBrackets
{
    /// <param name="open">Whether an ending goes on from the system before.</param>
    /// <returns>Whether an ending goes on into the next system.</returns>
    public static bool Draw(Sheet sheet, SetSystem system, bool open, double lowest, Sizes sizes)
    {
        var brackets = new List<Bracket>();
        var current = open ? new Bracket(system.Bars[0].Left, 0, "", false) : (Bracket?)null;
        for (var i = 0; i < system.Bars.Length; i++)
        {
            var bar = system.Bars[i];
            var marks = bar.Written.Bar.Marks;
            if (!marks.EndingStart.IsEmpty)
                current = new(bar.Left, 0, string.Concat(marks.EndingStart.Select(pass => $"{pass}.")), false);
            if (current is { } bracket && marks.ClosesEnding)
            {
                // The last ending of a part that goes on has no closing hook (common practice).
                brackets.Add(bracket with { Right = bar.Right, Closes = marks.RepeatEnd > 1 || marks.SectionEnd });
                current = null;
            }
        }
        if (current is { } unfinished)
            brackets.Add(unfinished with { Right = system.Right });
        DrawAll(sheet, brackets, lowest, sizes);
        DrawCounts(sheet, system, lowest, sizes);
        return current is not null;
    }

    private static void DrawAll(Sheet sheet, List<Bracket> brackets, double lowest, Sizes sizes)
    {
        if (brackets.Count == 0)
            return;
        var height = sizes.Ending * 1.15;
        var top = brackets.Min(item => sheet.TopOver(item.Left, item.Right, lowest)) - (2.4 * sizes.Scale) - height;
        foreach (var item in brackets)
        {
            var left = item.Left + (0.4 * sizes.Scale);
            var right = item.Right - (1.2 * sizes.Scale);
            var segments = ImmutableArray.CreateBuilder<Segment>();
            segments.Add(new(left, top, right, top));
            if (item.Text.Length > 0)
                segments.Add(new(left, top, left, top + height));
            if (item.Closes)
                segments.Add(new(right, top, right, top + height));
            sheet.Add(new Rules(InkKind.Ending, segments.ToImmutable(), sizes.ThinBarLine));
            if (item.Text.Length > 0)
                sheet.Add(
                    new Words(
                        InkKind.Ending,
                        item.Text,
                        left + (2.6 * sizes.Scale),
                        top + (sizes.Ending * 0.98),
                        sizes.Ending,
                        Face.Roman,
                        Anchor.Left
                    )
                );
        }
    }

    private static void DrawCounts(Sheet sheet, SetSystem system, double lowest, Sizes sizes)
    {
        foreach (var bar in system.Bars)
        {
            if (bar.Written.Bar.Marks.RepeatEnd <= 2)
                continue;
            var text = $"{bar.Written.Bar.Marks.RepeatEnd} times";
            var words = new Words(InkKind.RepeatCount, text, bar.Right, 0, sizes.Ending, Face.Italic, Anchor.Right);
            var top = sheet.TopOver(words.Box.Left, words.Box.Right, lowest);
            sheet.Add(words.Moved(0, top - words.Box.Bottom - (2.4 * sizes.Scale)));
        }
    }

    private readonly record struct Bracket(double Left, double Right, string Text, bool Closes);
}
