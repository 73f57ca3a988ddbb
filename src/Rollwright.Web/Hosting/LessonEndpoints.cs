using System.IO.Compression;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.StaticFiles;
using Rollwright.Lessons;
using Rollwright.Lessons.Outputs;
using Rollwright.Sound;
using Rollwright.Web.State;
using Rollwright.Web.State.Teaching;

namespace Rollwright.Web.Hosting;

/// <summary>
/// The documents of a lesson that an open page holds: /lesson/{id}/take/{document} to take one away, a zip where it has several
/// files; /lesson/{id}/everything.zip; and /lesson/{id}/look/{document} to look at what is a page.
/// </summary>
internal static class LessonEndpoints
{
    private static readonly FileExtensionContentTypeProvider Types = new() { Mappings = { [".vtt"] = "text/vtt" } };

    public static void MapLessons(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/lesson/{id}/take/{document}", Take);
        routes.MapGet("/lesson/{id}/everything.zip", Everything);
        routes.MapGet("/lesson/{id}/look/{document}", Look);
    }

    private static IResult Take(string id, string document, LessonShelf shelf) =>
        Made(
            id,
            shelf,
            lesson =>
            {
                if (LessonOutput.Find(document) is not { } output)
                    return NoDocument(document);
                LessonFile[] files = [.. output.Make(lesson)];
                return files is [var only]
                    ? File(only, $"{StemOf(lesson)}-{Path.GetFileName(only.Path)}")
                    : Zip(files, $"{StemOf(lesson)}-{output.Name}.zip");
            }
        );

    private static IResult Everything(string id, LessonShelf shelf) =>
        Made(
            id,
            shelf,
            lesson => Zip(LessonOutput.Usual.SelectMany(output => output.Make(lesson)), $"{StemOf(lesson)}-lesson.zip")
        );

    // These pages bring a policy of their own, stricter than the workbench's but for one script; no other site may frame them.
    private static IResult Look(string id, string document, LessonShelf shelf, HttpContext context)
    {
        context.Response.Headers.ContentSecurityPolicy = "frame-ancestors 'self'";
        return Made(
            id,
            shelf,
            lesson =>
                LessonOutput.Find(document)?.Look is { } look
                    ? Results.Text(look(lesson), "text/html; charset=utf-8")
                    : NoDocument(document)
        );
    }

    private static IResult NoDocument(string name) =>
        Results.Text($"There is no document '{name}'.", statusCode: StatusCodes.Status404NotFound);

    private static IResult Made(string id, LessonShelf shelf, Func<Lesson, IResult> make)
    {
        if (shelf.Find(id) is not { } lesson)
            return Results.Text(
                "This lesson is no longer on an open page. Go back to the workbench and open it again.",
                statusCode: StatusCodes.Status404NotFound
            );
        try
        {
            return make(lesson);
        }
        catch (Exception no) when (no is LessonException or SoundException)
        {
            return Results.Text(no.Message, statusCode: StatusCodes.Status422UnprocessableEntity);
        }
    }

    private static IResult File(LessonFile file, string? name)
    {
        var type = Types.TryGetContentType(file.Path, out var known) ? known : "application/octet-stream";
        return Results.Bytes(
            file.Bytes,
            type.StartsWith("text/", StringComparison.Ordinal) ? $"{type}; charset=utf-8" : type,
            name
        );
    }

    private static IResult Zip(IEnumerable<LessonFile> files, string name)
    {
        using var memory = new MemoryStream();
        using (var zip = new ZipArchive(memory, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var file in files)
            {
                using var entry = zip.CreateEntry(file.Path).Open();
                entry.Write(file.Bytes);
            }
        }
        return Results.Bytes(memory.ToArray(), "application/zip", name);
    }

    private static string StemOf(Lesson lesson) => new Made("", lesson.Plan.Played).Stem;
}
