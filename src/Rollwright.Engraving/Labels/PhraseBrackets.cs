using System.Globalization;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Forms;

namespace Rollwright.Engraving.Labels;

/// <summary>Brackets over phrases, each with its number; one that goes over the end of a system stays open there.</summary>
internal static class PhraseBrackets
{
    public static void Draw(Sheet sheet, SetSystem system, PhraseNumbers phrases, double lowest, Sizes sizes)
    {
        var spans = system
            .Bars.GroupBy(bar => phrases.Of(bar.Written.Index))
            .Select(group => (Number: group.Key, First: group.First(), Last: group.Last()))
            .ToList();
        var size = sizes.BarNumber;
        var hook = 3 * sizes.Scale;
        var y = sheet.TopOver(system.Left, system.Right, lowest) - hook - (3 * sizes.Scale);
        foreach (var (number, first, last) in spans)
        {
            var words = new Words(
                InkKind.Phrase,
                number.ToString(CultureInfo.InvariantCulture),
                first.Left + (2.4 * sizes.Scale),
                y + (size * Lettering.CapitalHeight / 2),
                size,
                Face.Italic,
                Anchor.Left
            );
            double left = first.Left + (0.8 * sizes.Scale),
                right = last.Right - (1.6 * sizes.Scale);
            var segments = new List<Segment> { new(words.Box.Right + (1.4 * sizes.Scale), y, right, y) };
            if (phrases.Opens(first.Written.Index))
                segments.Add(new(left, y, left, y + hook));
            if (phrases.Opens(last.Written.Index + 1))
                segments.Add(new(right, y, right, y + hook));
            sheet.Add(words);
            sheet.Add(new Rules(InkKind.Phrase, [.. segments], sizes.StaffLine));
        }
    }
}
