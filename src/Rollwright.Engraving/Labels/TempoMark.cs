using System.Globalization;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Engraving.Labels;

/// <summary>The tempo with its unit above the first system: a half note that is 80 is not a quarter note that is 80.</summary>
internal static class TempoMark
{
    public static void Draw(Sheet sheet, SetSystem system, Tempo tempo, Swing? swing, double lowest, Sizes sizes)
    {
        var size = sizes.Credit * 1.05;
        var text =
            $"= {tempo.PerMinute.ToString("0.#", CultureInfo.InvariantCulture)}{(swing is null ? "" : $", swung {swing}")}";
        var value = NoteValue.Of(tempo.Unit);
        var space = size * 0.36;
        var x = system.Left + (HasPart(system) ? sizes.Part * 2.3 : 0);
        var inks = new List<Ink>();
        if (value is { } unit)
        {
            var note = new Sign(InkKind.Tempo, Glyph.TempoNote(unit.Denominator), x, 0, space);
            inks.Add(note);
            x = note.Box.Right;
            for (var dot = 0; dot < unit.Dots; dot++)
            {
                var sign = new Sign(InkKind.Tempo, Glyph.TempoDot, x + (0.35 * space), 0, space);
                inks.Add(sign);
                x = sign.Box.Right;
            }
        }
        else
        {
            var words = new Words(InkKind.Tempo, $"{tempo.Unit}", x, 0, size, Face.Roman, Anchor.Left);
            inks.Add(words);
            x = words.Box.Right;
        }
        inks.Add(new Words(InkKind.Tempo, text, x + (1.2 * space), 0, size, Face.Roman, Anchor.Left));
        var box = Box.Around(inks.Select(ink => ink.Box));
        var baseline =
            sheet.TopOver(box.Left - sizes.Clear, box.Right + sizes.Clear, lowest) - box.Bottom - (4 * sizes.Scale);
        foreach (var ink in inks)
            sheet.Add(ink.Moved(0, baseline));
    }

    private static bool HasPart(SetSystem system) => system.Bars[0].Written.Bar.Marks.Part is { Length: > 0 };
}
