using System.Text;
using Rollwright.Lessons.Page;

namespace Rollwright.Lessons.Outputs;

/// <summary>The page that plays.</summary>
internal static class PageOutput
{
    public static IEnumerable<LessonFile> Make(Lesson lesson)
    {
        var swaps = lesson.Made is { } made ? LickSwap.Of(made, lesson.Plan.Steps.Select(step => step.Phrase)) : [];
        yield return new(
            "page/index.html",
            Encoding.UTF8.GetBytes(LessonPage.Write(lesson.Plan, swaps, lesson.Edits, lesson.Form, lesson.Video))
        );
    }
}
