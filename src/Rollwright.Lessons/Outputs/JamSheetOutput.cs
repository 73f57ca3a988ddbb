using System.Collections.Immutable;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Figures;
using Rollwright.Engraving.Flow;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Pdf;
using Rollwright.Lessons.JamSheets;

namespace Rollwright.Lessons.Outputs;

/// <summary>
/// One page for those who play along: melody, chords, form, in the key that sounds. What is too long gives up the melody bit by
/// bit, then has smaller boxes; only what cannot be read any smaller has more pages.
/// </summary>
internal static class JamSheetOutput
{
    // On several pages boxes are as small as can well be read, so that two pages last long (assumption).
    private const double ScaleOfMany = 0.68;

    // Points left at the foot, since a line's descenders are not measured.
    private const double Ease = 6;

    // A figure stands whole on a page: so many parts beside and under each other, and so many bars of one.
    private const int PartsTogether = 8;
    private const int BarsTogether = 64;

    public static IEnumerable<LessonFile> Make(Lesson lesson)
    {
        var style = new FlowStyle(lesson.Paper.Width, lesson.Paper.Height!.Value)
        {
            Inner = 46,
            Outer = 46,
            Top = 40,
            Bottom = 36,
            Size = 10,
            IsNumbered = false,
        };
        var page =
            SheetForm
                .OnOnePage(lesson.Plan.Played)
                .Select(forms => Fitting(lesson, [.. forms], style))
                .FirstOrDefault(layout => layout is not null)
            ?? OnMore(lesson, style);
        yield return new("jam-sheet.pdf", PdfWriter.Write(page));
    }

    // The largest that fits; most long tunes fit at no size, so the smallest is tried first.
    private static Layout? Fitting(Lesson lesson, ImmutableArray<SheetForm> forms, FlowStyle style)
    {
        var smallest = Lay(lesson, forms[^1], style);
        if (smallest.Pages.Length > 1)
            return null;
        foreach (var form in forms.SkipLast(1))
        {
            var layout = Lay(lesson, form, style);
            if (layout.Pages.Length == 1)
                return Filled(lesson, form, layout, style);
        }
        return Filled(lesson, forms[^1], smallest, style);
    }

    // White at the foot goes into the boxes.
    private static Layout Filled(Lesson lesson, SheetForm form, Layout layout, FlowStyle style)
    {
        var white = style.Height - style.Bottom - layout.Pages[0].Inks.Max(ink => ink.Box.Bottom);
        var fuller = form.Filling(Grid(lesson), white - Ease);
        var filled = Lay(lesson, fuller, style);
        return filled.Pages.Length == 1 ? filled : layout;
    }

    private static ImmutableArray<GridPart> Grid(Lesson lesson) =>
        SoundingTune.Grid(lesson.Plan.Played, lesson.Numbers);

    private static Layout OnMore(Lesson lesson, FlowStyle style)
    {
        const string Words = "Too long for one page at a size that can be read: chords and form alone, on";
        var many = style with { IsNumbered = true, RunningTitle = lesson.Plan.Tune.Title, Bottom = 54, Top = 52 };
        var pages = Lay(lesson, new(null, $"{Words} more.", ScaleOfMany, 2), many).Pages.Length;
        return Lay(lesson, new(null, $"{Words} {pages} pages.", ScaleOfMany, 2), many);
    }

    private static Layout Lay(Lesson lesson, SheetForm form, FlowStyle style) =>
        TextFlow.Lay(
            $"{lesson.Plan.Tune.Title}: jam sheet",
            lesson.Plan.Played.Composer,
            Blocks(lesson, form, style),
            style with
            {
                Size = style.Size * Math.Clamp(form.Scale, 0.8, 1.1),
            }
        );

    private static List<FlowBlock> Blocks(Lesson lesson, SheetForm form, FlowStyle style)
    {
        var plan = lesson.Plan;
        var blocks = new List<FlowBlock>
        {
            new Heading(1, plan.Tune.Title),
            new TextBlock([new(JamWords.Head(plan))]),
            new TextBlock([new(lesson.Plan.Tune.Rights.Words, Face.Italic)]),
        };
        if (form.Melody is not null)
            blocks.Add(new FigureBlock(Engraver.Lay(form.Melody, MelodyStyle(style, form.Scale))));
        if (form.Note.Length > 0)
            blocks.Add(new NoteBlock([new(form.Note)]));
        if (plan.Played.Bars.Any(bar => !bar.Chords.IsEmpty))
            blocks.AddRange(Chords(Grid(lesson), form, style));
        foreach (var (who, what) in JamWords.Players(plan.Played, form.Melody is not null, lesson.Numbers))
            blocks.Add(new TextBlock([new($"{who}: ", Face.Bold), new(what)]));
        return blocks;
    }

    private static IEnumerable<FlowBlock> Chords(ImmutableArray<GridPart> parts, SheetForm form, FlowStyle style)
    {
        var across = form.Across(parts);
        if (form.Columns == 1)
            return [new FigureBlock(ChordGrid.Lay(parts, new(style.TextWidth), across, form.BoxScale, form.Stretch))];
        return parts
            .SelectMany(part => part.Bars.Chunk(BarsTogether).Select(bars => part with { Bars = [.. bars] }))
            .Chunk(style.IsNumbered ? PartsTogether : int.MaxValue)
            .Select(some => new FigureBlock(
                ChordGrid.Lay(SheetForm.InTwo(some, across), new(style.TextWidth), across, form.BoxScale, form.Stretch)
            ));
    }

    private static PageStyle MelodyStyle(FlowStyle style, double scale) =>
        PageStyle.Continuous(style.TextWidth) with
        {
            Margin = 1.5,
            Scale = scale,
            ShowHeading = false,
        };
}
