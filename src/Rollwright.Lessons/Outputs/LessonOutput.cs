using System.Collections.Immutable;
using Rollwright.Lessons.Page;

namespace Rollwright.Lessons.Outputs;

/// <summary>A file of a lesson's folder.</summary>
/// <param name="Path">Within the folder, with / between names.</param>
/// <param name="Bytes">All of it.</param>
public sealed record LessonFile(string Path, byte[] Bytes);

/// <summary>A document that a lesson can be had as.</summary>
/// <param name="Name">By which it is asked for.</param>
/// <param name="About">What it is for.</param>
/// <param name="Make">Its files.</param>
/// <param name="IsUsual">Whether it is made where none is chosen; hundreds of pictures are made only for those who ask.</param>
public sealed record LessonOutput(
    string Name,
    string About,
    Func<Lesson, IEnumerable<LessonFile>> Make,
    bool IsUsual = true
)
{
    /// <summary>As one HTML page to be looked at before it is taken away; null for what has none.</summary>
    public Func<Lesson, string>? Look { get; private init; }

    /// <summary>All there are, in the order in which they are made.</summary>
    public static ImmutableArray<LessonOutput> All { get; } =
    [
        new("page", "a page that plays", PageOutput.Make) { Look = LessonPage.Write },
        new("handout", "a booklet to print", HandoutOutput.Make),
        new("article", "a column with its figures", ArticleOutput.Make) { Look = ArticleOutput.Look },
        new("jam-sheet", "a page for those who play along", JamSheetOutput.Make),
        new("facts", "what an index of several lessons says of this one", FactsOutput.Make),
        new("captions", "captions and chapters of a video", CaptionsOutput.Make),
        new("strip", "the tab as one line to lay over a video, its place marked", StripOutput.Make, IsUsual: false),
    ];

    /// <summary>Those that are made where none is chosen.</summary>
    public static ImmutableArray<LessonOutput> Usual { get; } = [.. All.Where(output => output.IsUsual)];

    public static LessonOutput? Find(string name) => All.FirstOrDefault(output => output.Name == name);
}
