using System.ServiceModel.Syndication;
using System.Text;
using System.Xml;

namespace Rollwright.Lessons.Series;

/// <summary>A series as an Atom feed (RFC 4287), the lesson that was made last first.</summary>
public static class SeriesFeed
{
    // Names for ever that need no address: they are worked out from the titles (RFC 4151 asks for a domain that nobody here has).
    private const string Names = "urn:rollwright:";

    public static byte[] Write(LessonSeries series)
    {
        ArgumentNullException.ThrowIfNull(series);
        var feed = new SyndicationFeed(series.Title, "", series.Address)
        {
            Id = $"{Names}series:{Uri.EscapeDataString(series.Title)}",
            LastUpdatedTime = series.Lessons.Max(lesson => lesson.ChangedAt),
            Items =
            [
                .. series.Lessons.OrderByDescending(lesson => lesson.ChangedAt).Select(lesson => Item(series, lesson)),
            ],
        };
        // An entry without an author takes the feed's, and one of them must be there.
        feed.Authors.Add(new() { Name = series.Author.Length > 0 ? series.Author : series.Title });
        using var stream = new MemoryStream();
        using (var xml = XmlWriter.Create(stream, new() { Indent = true, Encoding = new UTF8Encoding(false) }))
            feed.SaveAsAtom10(xml);
        return stream.ToArray();
    }

    private static SyndicationItem Item(LessonSeries series, SeriesLesson lesson)
    {
        var address = series.Address is { } home
            ? new Uri(home, lesson.Address)
            : new Uri(lesson.Address, UriKind.Relative);
        return new(lesson.Facts.Title, (SyndicationContent?)null, address, Id(series, lesson), lesson.ChangedAt)
        {
            Summary = new($"{lesson.Facts.About} Taught: {string.Join("; ", lesson.Facts.Taught)}."),
            Copyright = new(lesson.Facts.Rights),
        };
    }

    private static string Id(LessonSeries series, SeriesLesson lesson) =>
        $"{Names}lesson:{Uri.EscapeDataString(series.Title)}:{Uri.EscapeDataString(lesson.Folder)}";
}
