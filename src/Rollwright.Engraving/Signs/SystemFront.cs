using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;
using Rollwright.Engraving.Tab;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Signs;

/// <summary>What stands at the left end of a system: clef, key signature, at the start of the piece the metre.</summary>
internal sealed class SystemFront(Key key, TimeSignature time, PageStyle style, Sizes sizes)
{
    // Fiddlers read at pitch; the banjo's notes sound an octave below what is written.
    private Glyph Clef => style.OfTune ? Glyph.TrebleClef : Glyph.TrebleClef8Below;

    private double ClefX => 0.9 * sizes.Space;

    private double KeyX => ClefX + (MusicFont.WidthOf(Clef) * sizes.Space) + (0.7 * sizes.Space);

    private double TimeX =>
        style.ShowNotation
            ? KeyX + KeySignatures.WidthOf(key, sizes) + (key.Fifths == 0 ? 0 : 0.7 * sizes.Space)
            : TabStaff.LettersX(sizes) + TabStaff.LettersWidth(sizes) + (0.9 * sizes.Space);

    /// <summary>Points from the left end of the staves to where bars start.</summary>
    public double WidthOf(bool first) => TimeX + (first ? TimeSignatures.WidthOf(time, sizes) + sizes.Space : 0);

    public void DrawNotation(Sheet sheet, SetSystem system)
    {
        sheet.Add(new Sign(InkKind.Clef, Clef, system.Left + ClefX, sizes.Space, sizes.Space));
        KeySignatures.Draw(sheet, key, system.Left + KeyX, sizes);
        if (system.IsFirst)
            TimeSignatures.Draw(sheet, time, system.Left + TimeX, 0, sizes.Space);
    }

    public void DrawTab(Sheet sheet, SetSystem system)
    {
        TabStaff.DrawLetters(sheet, system, sizes);
        if (system.IsFirst && !style.ShowNotation)
            TimeSignatures.Draw(sheet, time, system.Left + TimeX, sizes.TabHeight / 2, sizes.Space);
    }
}
