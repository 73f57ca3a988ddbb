using System.Collections.Frozen;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Rollwright.Class;
using Rollwright.Web.Pages.Sharing;
using Rollwright.Web.State.Sharing;

namespace Rollwright.Web.Hosting.Sharing;

/// <summary>Takes that pupils hand in: they come as files, and teachers hear them.</summary>
internal static class HandedInEndpoints
{
    // What browsers play (IANA's registry of media types); anything else is not taken, and nothing is ever served as a page.
    private static readonly FrozenDictionary<string, string> Types = new Dictionary<string, string>(
        StringComparer.OrdinalIgnoreCase
    )
    {
        ["wav"] = "audio/wav",
        ["mp3"] = "audio/mpeg",
        ["m4a"] = "audio/mp4",
        ["aac"] = "audio/aac",
        ["mp4"] = "audio/mp4",
        ["ogg"] = "audio/ogg",
        ["oga"] = "audio/ogg",
        ["opus"] = "audio/ogg",
        ["webm"] = "audio/webm",
        ["flac"] = "audio/flac",
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    public static void MapHandedIn(this IEndpointRouteBuilder routes)
    {
        routes
            .MapPost("/class/lessons/{id:guid}/takes", HandIn)
            .WithMetadata(new RequestSizeLimitAttribute(Classroom.MostTakeBytes + 100_000))
            .WithFormOptions(multipartBodyLengthLimit: Classroom.MostTakeBytes + 100_000);
        routes.MapGet("/class/takes/{id:guid}/sound", Sound);
        routes.MapPost("/class/takes/{id:guid}/back", Back);

        var teachers = routes.MapGroup("").RequireAuthorization(SignIn.Teachers);
        teachers.MapGet("/class/takes", Takes);
        teachers.MapPost("/class/takes/{id:guid}/answer", Answer);
    }

    private static async Task<IResult> HandIn(
        Guid id,
        IFormFile? sound,
        [FromForm] string? words,
        Visit visit,
        Classroom room,
        HttpContext context
    )
    {
        if (sound is null || sound.Length == 0)
            throw new ClassException("choose a recording first");
        var ending = Path.GetExtension(sound.FileName).TrimStart('.');
        if (!Types.ContainsKey(ending))
            throw new ClassException($"a take is one of {string.Join(", ", Types.Keys.Order(StringComparer.Ordinal))}");
        using var bytes = new MemoryStream((int)Math.Min(sound.Length, Classroom.MostTakeBytes));
        await sound.CopyToAsync(bytes, context.RequestAborted);
        await room.HandInAsync(visit.Someone, id, bytes.ToArray(), ending, words ?? "");
        return Results.LocalRedirect($"/class/lessons/{id}");
    }

    private static async Task<IResult> Sound(Guid id, Visit visit, Classroom room)
    {
        var (bytes, ending) = await room.SoundAsync(visit.Someone, id);
        return Results.Bytes(
            bytes,
            Types.GetValueOrDefault(ending, "application/octet-stream"),
            enableRangeProcessing: true
        );
    }

    private static async Task<IResult> Back(Guid id, [FromForm] Guid lesson, Visit visit, Classroom room)
    {
        await room.TakeBackAsync(visit.Someone, id);
        return Results.LocalRedirect($"/class/lessons/{lesson}");
    }

    private static async Task<IResult> Takes(Visit visit, Classroom room) =>
        DoorEndpoints.Page<TakesPage>(new { Person = visit.Someone, Takes = await room.TakesAsync(visit.Someone) });

    private static async Task<IResult> Answer(
        Guid id,
        [FromForm] string? words,
        [FromForm] string? lesson,
        Visit visit,
        Classroom room
    )
    {
        await room.AnswerAsync(visit.Someone, id, words ?? "");
        return Results.LocalRedirect(Guid.TryParse(lesson, out var of) ? $"/class/lessons/{of}" : "/class/takes");
    }
}
