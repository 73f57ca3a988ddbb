using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Figures;
using Rollwright.Engraving.Flow;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Pdf;
using Rollwright.Lessons.JamSheets;
using Rollwright.Music.Tunes;

namespace Rollwright.Lessons.Outputs;

/// <summary>One page for those who play along: melody, chords, form, in the key that sounds.</summary>
internal static class JamSheetOutput
{
    // From the best to read to what can just be read on a music stand (assumption).
    private static readonly double[] Scales = [1.3, 1.2, 1.1, 1, 0.92, 0.84, 0.76, 0.68, 0.6];

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
        var tune = SoundingTune.Of(lesson.Plan.Played);
        var page =
            Fitting(lesson, tune, style)
            ?? (tune is null ? null : Fitting(lesson, null, style))
            ?? throw new LessonException("jam sheet: the form is too long for one page; leave it out with --only");
        yield return new("jam-sheet.pdf", PdfWriter.Write(page));
    }

    private static Layout? Fitting(Lesson lesson, Tune? tune, FlowStyle style) =>
        Scales
            .Select(scale =>
                TextFlow.Lay(
                    $"{lesson.Plan.Tune.Title}: jam sheet",
                    lesson.Plan.Played.Composer,
                    Blocks(lesson, tune, style, scale),
                    style with
                    {
                        Size = style.Size * Math.Clamp(scale, 0.8, 1.1),
                    }
                )
            )
            .FirstOrDefault(layout => layout.Pages.Length == 1);

    private static List<FlowBlock> Blocks(Lesson lesson, Tune? tune, FlowStyle style, double scale)
    {
        var plan = lesson.Plan;
        var blocks = new List<FlowBlock>
        {
            new Heading(1, plan.Tune.Title),
            new TextBlock([new(JamWords.Head(plan))]),
            new TextBlock([new(lesson.Plan.Tune.Rights.Words, Face.Italic)]),
        };
        if (tune is not null)
            blocks.Add(new FigureBlock(Engraver.Lay(tune, Melody(style, scale))));
        else if (plan.Played.Tune is not null)
            blocks.Add(new NoteBlock([new("The melody is too long for one page: chords and form alone.")]));
        if (plan.Played.Bars.Any(bar => !bar.Chords.IsEmpty))
        {
            var parts = SoundingTune.Grid(plan.Played, lesson.Numbers);
            var across = parts.Sum(part => (part.Bars.Length + 3) / 4) > 10 ? 8 : 4;
            blocks.Add(
                new FigureBlock(ChordGrid.Lay(parts, new(style.TextWidth), across, Math.Min(1.15, scale * 1.1)))
            );
        }
        foreach (var (who, what) in JamWords.Players(plan.Played, tune is not null, lesson.Numbers))
            blocks.Add(new TextBlock([new($"{who}: ", Face.Bold), new(what)]));
        return blocks;
    }

    private static PageStyle Melody(FlowStyle style, double scale) =>
        PageStyle.Continuous(style.TextWidth) with
        {
            Margin = 1.5,
            Scale = scale,
            ShowHeading = false,
        };
}
