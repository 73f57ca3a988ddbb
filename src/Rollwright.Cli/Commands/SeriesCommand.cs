using System.CommandLine;
using System.Text;
using Rollwright.Cli.Files;
using Rollwright.Lessons;
using Rollwright.Lessons.Series;

namespace Rollwright.Cli.Commands;

/// <summary><c>rollwright series FOLDER</c>: an index page and an Atom feed of the lessons in a folder's folders.</summary>
internal static class SeriesCommand
{
    private static readonly Argument<string> Folder = new("folder")
    {
        Description = "A folder that holds the folders of lessons, as lesson --out-dir writes them.",
    };
    private static readonly Option<string> Title = new("--title")
    {
        Description = "What the series is called.",
        DefaultValueFactory = _ => "Lessons",
    };
    private static readonly Option<string> Author = new("--author")
    {
        Description = "Who teaches.",
        DefaultValueFactory = _ => "",
    };
    private static readonly Option<string?> Address = new("--address")
    {
        Description = "Where the folder is published, such as https://example.org/lessons/; feed readers want it.",
    };

    public static Command Build()
    {
        var command = new Command("series", "An index page and an Atom feed of several lessons.")
        {
            Folder,
            Title,
            Author,
            Address,
        };
        command.SetAction(parsed =>
        {
            var folder = parsed.GetRequiredValue(Folder);
            var series = new LessonSeries(
                parsed.GetRequiredValue(Title),
                parsed.GetRequiredValue(Author),
                AddressOf(parsed.GetValue(Address)),
                [.. LessonsIn(folder)]
            );
            if (series.Lessons.IsEmpty)
                throw new RequestException(
                    $"{folder}: no lesson is in it; write some with lesson TUNE --out-dir {Path.Combine(folder, "NAME")}"
                );
            List<LessonFolder.Made> files =
            [
                new("index", new("index.html", Encoding.UTF8.GetBytes(SeriesPage.Write(series)))),
                new("feed", new("feed.xml", SeriesFeed.Write(series))),
            ];
            var left = LessonFolder.Write(folder, files, force: false);
            if (left.Count == 0)
                return Exit.Done;
            Exit.Say(
                $"{string.Join(", ", left)}: changed by hand or not made by this program, so left as it is; move it away first"
            );
            return Exit.Wrong;
        });
        return command;
    }

    // In the order of the folders' names, which is a teacher's to choose: 01-first, 02-second.
    private static IEnumerable<SeriesLesson> LessonsIn(string folder)
    {
        if (!Directory.Exists(folder))
            throw new RequestException($"{folder}: there is no such folder");
        foreach (var own in Directory.EnumerateDirectories(folder).Order(StringComparer.Ordinal))
        {
            var file = Path.Combine(own, LessonFacts.FileName);
            if (!File.Exists(file))
                continue;
            LessonFacts facts;
            try
            {
                facts = LessonFacts.Read(Encoding.UTF8.GetString(InputFile.Read(file)));
            }
            catch (LessonException fault)
            {
                throw new RequestException($"{file}: {fault.Message}");
            }
            yield return new(
                Path.GetFileName(own),
                facts,
                File.Exists(Path.Combine(own, "page", "index.html")),
                File.Exists(Path.Combine(own, "handout.pdf")),
                new(File.GetLastWriteTimeUtc(file), TimeSpan.Zero)
            );
        }
    }

    private static Uri? AddressOf(string? asked)
    {
        if (asked is null)
            return null;
        return
            Uri.TryCreate(asked.TrimEnd('/') + "/", UriKind.Absolute, out var address)
            && address.Scheme is "http" or "https"
            ? address
            : throw new RequestException($"--address: '{asked}' is no address of the web; it begins with https://");
    }
}
