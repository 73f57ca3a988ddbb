using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Labels;

/// <summary>The head of the first page: title, credit, tuning, capo and keys.</summary>
internal static class Heading
{
    /// <summary>Ink from y = 0 downwards.</summary>
    public static Sheet Draw(Break played, PageStyle style, Sizes sizes)
    {
        var sheet = new Sheet();
        double left = style.Margin,
            right = style.Width - style.Margin,
            y = 0;
        foreach (var line in Paragraph.Lines(played.Title, right - left, sizes.Title, Face.Bold))
        {
            y += sizes.Title;
            sheet.Add(new Words(InkKind.Title, line, (left + right) / 2, y, sizes.Title, Face.Bold, Anchor.Middle));
        }
        y += sizes.Credit * 1.7;
        var setting = style.OfTune ? TuneSheet.HeadingOf(played) : SettingWords(played.Setting);
        var together =
            Lettering.WidthOf(setting, sizes.Credit, Face.Roman)
            + Lettering.WidthOf(played.Composer, sizes.Credit, Face.Italic)
            + (3 * sizes.Credit);
        if (together <= right - left)
        {
            Line(sheet, InkKind.Heading, setting, left, y, Face.Roman, Anchor.Left, sizes);
            Line(sheet, InkKind.Credit, played.Composer, right, y, Face.Italic, Anchor.Right, sizes);
            return sheet;
        }
        foreach (var line in Paragraph.Lines(played.Composer, right - left, sizes.Credit, Face.Italic))
        {
            Line(sheet, InkKind.Credit, line, (left + right) / 2, y, Face.Italic, Anchor.Middle, sizes);
            y += sizes.Credit * 1.35;
        }
        foreach (var line in Paragraph.Lines(setting, right - left, sizes.Credit, Face.Roman))
        {
            Line(sheet, InkKind.Heading, line, (left + right) / 2, y, Face.Roman, Anchor.Middle, sizes);
            y += sizes.Credit * 1.35;
        }
        return sheet;
    }

    /// <summary>"Tuning: open G (g D G B D). Position: G major. Capo 2, sounds in A major."</summary>
    public static string SettingWords(Setting setting)
    {
        var spelling = PrintedNames.OfTuning(setting.Tuning.Spelling);
        var position = PrintedNames.Of(setting.Position);
        var tuning = $"Tuning: {setting.Tuning.Name} ({spelling})";
        return setting.Capo == 0
            ? $"{tuning}. Key: {position}, no capo."
            : $"{tuning}. Position: {position}. Capo {setting.Capo}, sounds in {PrintedNames.Of(setting.SoundingKey)}.";
    }

    private static void Line(
        Sheet sheet,
        InkKind kind,
        string text,
        double x,
        double y,
        Face face,
        Anchor anchor,
        Sizes sizes
    )
    {
        if (text.Length > 0)
            sheet.Add(new Words(kind, text, x, y, sizes.Credit, face, anchor));
    }
}
