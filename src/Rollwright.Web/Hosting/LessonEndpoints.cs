using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Rollwright.Lessons;
using Rollwright.Lessons.Outputs;
using Rollwright.Sound;
using Rollwright.Web.State.Jobs;
using Rollwright.Web.State.Teaching;

namespace Rollwright.Web.Hosting;

/// <summary>
/// The documents of a lesson that an open page holds: /lesson/{id}/take/{document} to take one away, a zip where it has several
/// files; /lesson/{id}/everything.zip; and /lesson/{id}/look/{document} to look at what is a page.
/// </summary>
internal static class LessonEndpoints
{
    public static void MapLessons(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/lesson/{id}/take/{document}", Take);
        routes.MapGet("/lesson/{id}/everything.zip", Everything);
        routes.MapGet("/lesson/{id}/look/{document}", Look);
    }

    private static Task<IResult> Take(
        string id,
        string document,
        LessonShelf shelf,
        OwnJobs jobs,
        HttpContext context
    ) =>
        Made(
            id,
            shelf,
            jobs,
            context,
            (lesson, _) =>
            {
                if (LessonOutput.Find(document) is not { } output)
                    return NoDocument(document);
                var (name, type, bytes) = LessonDownload.Of(lesson, output);
                return Results.Bytes(bytes, type, name);
            }
        );

    private static Task<IResult> Everything(string id, LessonShelf shelf, OwnJobs jobs, HttpContext context) =>
        Made(
            id,
            shelf,
            jobs,
            context,
            (lesson, stop) =>
                Results.Bytes(
                    LessonDownload.Zip(LessonOutput.Usual.SelectMany(output => FilesOf(output, lesson, stop))),
                    "application/zip",
                    $"{LessonDownload.StemOf(lesson)}-lesson.zip"
                )
        );

    private static IEnumerable<LessonFile> FilesOf(LessonOutput output, Lesson lesson, CancellationToken stop)
    {
        stop.ThrowIfCancellationRequested();
        return output.Make(lesson);
    }

    private static Task<IResult> Look(string id, string document, LessonShelf shelf, OwnJobs jobs, HttpContext context)
    {
        // These pages bring a policy of their own, stricter than the workbench's but for one script; no other site may frame them.
        context.Response.Headers.ContentSecurityPolicy = "frame-ancestors 'self'";
        return Made(
            id,
            shelf,
            jobs,
            context,
            (lesson, _) =>
                LessonOutput.Find(document)?.Look is { } look
                    ? Results.Text(look(lesson), "text/html; charset=utf-8")
                    : NoDocument(document)
        );
    }

    private static IResult NoDocument(string name) =>
        Results.Text($"There is no document '{name}'.", statusCode: StatusCodes.Status404NotFound);

    private static async Task<IResult> Made(
        string id,
        LessonShelf shelf,
        OwnJobs jobs,
        HttpContext context,
        Func<Lesson, CancellationToken, IResult> make
    )
    {
        if (shelf.Find(id) is not { } lesson)
            return Results.Text(
                "This lesson is no longer on an open page. Go back to the workbench and open it again.",
                statusCode: StatusCodes.Status404NotFound
            );
        var bars = lesson.Plan.Played.Bars.Length;
        return await jobs.Answer(JobKind.Documents, bars, context, stop => make(lesson, stop));
    }
}
