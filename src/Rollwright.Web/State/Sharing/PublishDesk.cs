using System.Text;
using Rollwright.Class;
using Rollwright.Class.Lessons;
using Rollwright.Class.People;
using Rollwright.Lessons;
using Rollwright.Lessons.Outputs;
using Rollwright.Library;
using Rollwright.Sound;
using Rollwright.Web.Hosting;
using Rollwright.Web.State.Jobs;
using Rollwright.Web.Words;

namespace Rollwright.Web.State.Sharing;

/// <summary>Publishes the lesson of the break on a teacher's bench.</summary>
public sealed class PublishDesk(Visit visit, Bench bench, OwnJobs jobs)
{
    private static readonly string[] Given = ["handout", "jam-sheet"];

    /// <summary>Makes what pupils are given, and publishes it.</summary>
    /// <returns>The lesson of the class, or what was in the way, in a sentence.</returns>
    public async Task<(Guid? Published, string Trouble)> Publish(Lesson lesson)
    {
        if (visit.Room is not { } room)
            return (null, "There is no class here.");
        // What is published is what is kept.
        if (bench.Keeping is not { State: KeepState.Kept, BreakId: { } kept })
            return (null, "The break is not kept yet; wait until it is, then publish.");
        try
        {
            var documents = await jobs.Run(
                JobKind.Documents,
                lesson.Plan.Played.Bars.Length,
                stop => DocumentsOf(lesson, stop)
            );
            var tune = lesson.Plan.Tune;
            var kind = tune.Kind.Length > 0 ? PlaceWords.Capital(tune.Kind) : "Tune";
            var about = $"{kind}, {tune.Time}. {SettingWords.Of(lesson.Plan.Played)}".TrimEnd('.');
            return (await room.PublishAsync(visit.Someone, kept, about, documents), "");
        }
        catch (Exception no)
            when (no
                    is LessonException
                        or SoundException
                        or LibraryException
                        or ClassException
                        or NotForYouException
                        or JobException
            )
        {
            return (null, PlaceWords.Capital(no.Message));
        }
        catch (OperationCanceledException)
        {
            return (null, "It was stopped, and nothing is published; publish again.");
        }
    }

    private static List<LessonDocument> DocumentsOf(Lesson lesson, CancellationToken stop)
    {
        var page = LessonOutput.Find("page")!.Look!(lesson);
        var documents = new List<LessonDocument>
        {
            new("page", "page.html", "text/html; charset=utf-8", Encoding.UTF8.GetBytes(page)),
        };
        foreach (var output in Given.Select(name => LessonOutput.Find(name)!))
        {
            stop.ThrowIfCancellationRequested();
            var (name, type, bytes) = LessonDownload.Of(lesson, output);
            documents.Add(new(output.Name, name, type, bytes));
        }
        return documents;
    }
}
