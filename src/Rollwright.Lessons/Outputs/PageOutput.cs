using System.Text;
using Rollwright.Lessons.Page;

namespace Rollwright.Lessons.Outputs;

/// <summary>The page that plays.</summary>
internal static class PageOutput
{
    public static IEnumerable<LessonFile> Make(Lesson lesson) =>
        [new("page/index.html", Encoding.UTF8.GetBytes(LessonPage.Write(lesson)))];
}
