using Rollwright.Lessons.Series;

namespace Rollwright.Lessons.Outputs;

/// <summary>What an index of several lessons says of this one.</summary>
internal static class FactsOutput
{
    public static IEnumerable<LessonFile> Make(Lesson lesson) =>
        [new(LessonFacts.FileName, LessonFacts.Of(lesson.Plan).Write())];
}
