using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Forms;

namespace Rollwright.Engraving.Labels;

/// <summary>Chord names above the system, all on one line.</summary>
internal static class ChordNames
{
    /// <summary>Names of a bar, each with the moment it stands over.</summary>
    public static ImmutableArray<(int Column, string Text)> In(WrittenBar bar)
    {
        var names = ImmutableArray.CreateBuilder<(int, string)>();
        foreach (var chord in bar.Bar.Chords)
        {
            // A chord that changes while a note is held stands over the note before it has passed.
            var column = 0;
            while (column + 1 < bar.Moments.Length && bar.Moments[column + 1].At <= chord.At)
                column++;
            names.Add((column, PrintedNames.Of(chord.Chord)));
        }
        return names.ToImmutable();
    }

    /// <summary>Width of a name with the white behind it.</summary>
    public static double WidthOf(string text, Sizes sizes) =>
        Lettering.WidthOf(text, sizes.Chord, Face.Bold) + Gap(sizes);

    private static double Gap(Sizes sizes) => 4 * sizes.Scale;

    public static void Draw(Sheet sheet, SetSystem system, double lowest, Sizes sizes)
    {
        var names = new List<Words>();
        foreach (var bar in system.Bars)
        {
            // A chord that goes on is said again only where someone may start to read.
            var before = names.Count == 0 || IsEntry(bar.Written.Bar.Marks) ? null : names[^1].Text;
            foreach (var (column, text) in In(bar.Written))
            {
                if (text == before)
                    continue;
                before = text;
                var x = bar.FrontOf(column) - (0.6 * sizes.Space);
                // Chords of one bar that share a column stand one after the other.
                if (names.Count > 0)
                    x = Math.Max(x, names[^1].Box.Right + Gap(sizes));
                names.Add(new(InkKind.Chord, text, x, 0, sizes.Chord, Face.Bold, Anchor.Left));
            }
        }
        if (names.Count == 0)
            return;
        var baseline =
            names.Min(name => sheet.TopOver(name.Box.Left - 1, name.Box.Right + (2 * Gap(sizes)), lowest))
            - (3.4 * sizes.Scale);
        foreach (var name in names)
            sheet.Add(name.Moved(0, baseline));
    }

    private static bool IsEntry(BarMarks marks) =>
        marks.RepeatStart || marks.Part is not null || !marks.EndingStart.IsEmpty;
}
