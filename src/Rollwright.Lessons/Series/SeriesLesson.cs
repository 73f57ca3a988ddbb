namespace Rollwright.Lessons.Series;

/// <summary>A lesson of a series.</summary>
/// <param name="Folder">Its folder's name, beside the index; letters of any kind, escaped where it becomes an address.</param>
/// <param name="Facts">What is said of it.</param>
/// <param name="HasPage">Whether it has a page that plays.</param>
/// <param name="HasHandout">Whether it has a handout.</param>
/// <param name="ChangedAt">When it was made last.</param>
public sealed record SeriesLesson(
    string Folder,
    LessonFacts Facts,
    bool HasPage,
    bool HasHandout,
    DateTimeOffset ChangedAt
)
{
    /// <summary>From the index to where one begins to read.</summary>
    public string Address =>
        $"{Uri.EscapeDataString(Folder)}/{(HasPage ? "page/index.html" : HasHandout ? "handout.pdf" : "")}";
}

/// <summary>Several lessons, in the order in which they are taught.</summary>
/// <param name="Title">What the series is called.</param>
/// <param name="Author">Who teaches; may be empty.</param>
/// <param name="Address">Where it is published, ending in /; null where it is not known.</param>
/// <param name="Lessons">At least one.</param>
public sealed record LessonSeries(
    string Title,
    string Author,
    Uri? Address,
    System.Collections.Immutable.ImmutableArray<SeriesLesson> Lessons
);
