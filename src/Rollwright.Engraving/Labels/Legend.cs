using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Labels;

/// <summary>What the signs of this page mean: only those that it uses.</summary>
internal static class Legend
{
    /// <summary>Ink from y = 0 downwards; none where there is nothing to say.</summary>
    public static Sheet Draw(Break played, PageStyle style, Sizes sizes)
    {
        var sheet = new Sheet();
        if (!style.ShowLegend)
            return sheet;
        var y = 0.0;
        var width = style.Width - (2 * style.Margin);
        foreach (var line in Paragraph.Lines(WordsFor(played, style), width, sizes.Legend, Face.Italic))
        {
            y += sizes.Legend;
            sheet.Add(new Words(InkKind.Legend, line, style.Width / 2, y, sizes.Legend, Face.Italic, Anchor.Middle));
            y += sizes.Legend * 0.3;
        }
        return sheet;
    }

    // A sign and its word stay on one line.
    private const char Bound = '\u00a0';

    private static string WordsFor(Break played, PageStyle style)
    {
        var strokes = played.Bars.SelectMany(bar => bar.Strokes).ToList();
        var says = new List<string>();
        if (style.ShowTab && style.ShowMelody && strokes.Exists(stroke => stroke.IsMelody))
            says.Add("Bold and underlined: a note of the tune.");
        if (style.ShowRightHand && strokes.Exists(stroke => stroke.Right is not null))
            says.Add($"T{Bound}thumb, I{Bound}index, M{Bound}middle{Bound}finger.");
        var slurs = new List<string>();
        foreach (var kind in new[] { SlurKind.HammerOn, SlurKind.PullOff, SlurKind.Slide, SlurKind.Choke })
        {
            if (style.ShowTab && strokes.Exists(stroke => stroke.Slur == kind))
                slurs.Add($"{SlurNames.Letter(kind)}{Bound}{SlurNames.Word(kind)}");
        }
        if (slurs.Count > 0)
            says.Add(string.Join(", ", slurs) + ".");
        if (style.ShowTune && style.ShowFates && played.Tune is not null)
            says.Add(
                "Small notes: the tune; joined to what plays it, slanted if early or late, broken if in another octave; hollow and not joined: left out."
            );
        if (style.ShowTempos)
            says.Add(
                $"Bands: how much of a comfortable tempo, the number, {played.Tempo.UnitName}{Bound}={Bound}{played.Tempo.PerMinute:0.##} uses."
            );
        return string.Join(' ', says);
    }
}
