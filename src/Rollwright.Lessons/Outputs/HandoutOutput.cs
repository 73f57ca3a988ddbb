using Rollwright.Engraving;
using Rollwright.Engraving.Flow;
using Rollwright.Engraving.Pdf;
using Rollwright.Lessons.Documents;
using Rollwright.Lessons.Documents.Printing;
using Rollwright.Lessons.Templates;

namespace Rollwright.Lessons.Outputs;

/// <summary>A booklet to be printed on both sides and handed out.</summary>
internal static class HandoutOutput
{
    // Room for the heading above a break that fills a page.
    private const double HeadingRoom = 60;

    public static IEnumerable<LessonFile> Make(Lesson lesson)
    {
        var title = lesson.Plan.Tune.Title;
        var style = new FlowStyle(lesson.Paper.Width, lesson.Paper.Height!.Value) { RunningTitle = title };
        var look = new FigureLook(
            style.TextWidth,
            style.TextWidth,
            style.TextHeight - HeadingRoom,
            PageStyle.A4 with
            {
                ShowLeftHand = true,
            },
            IsNumbered: false
        );
        var figures = new FigureBook(look);
        var text = LessonPlaces.Fill(LessonTemplates.Handout, lesson, figures);
        var document = new LessonDocument(title, lesson.Plan.Played.Composer, text, figures, lesson.Introduction);
        var layout = TextFlow.Lay(title, document.Author, FlowPrinter.Print(document), style);
        yield return new(
            "handout.pdf",
            PdfWriter.Write(layout with { Words = $"{title}: a lesson for five-string banjo" })
        );
    }
}
