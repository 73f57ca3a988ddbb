using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Routing;
using Rollwright.Audio.Reading;
using Rollwright.Audio.Wave;
using Rollwright.Web.State;
using Rollwright.Web.State.Hearing;
using Rollwright.Web.State.Jobs;

namespace Rollwright.Web.Hosting;

/// <summary>
/// Takes the sound that the page has decoded: a WAV file comes in, a name for it goes back; and gives a demo take of a break.
/// </summary>
internal static class TakeEndpoints
{
    public static void MapTakes(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/take", Put);
        routes.MapGet("/take/demo/{id}", Demo);
    }

    private static async Task<IResult> Demo(string id, Shelf shelf, OwnJobs jobs, HttpContext context)
    {
        if (!shelf.TryFind(id, out var made))
            return Results.Text("This break is no longer kept.", statusCode: StatusCodes.Status404NotFound);
        return await jobs.Answer(
            JobKind.Sound,
            made.Break.Bars.Length,
            context,
            _ => Results.Bytes(WavWriter.ToBytes(DemoTake.Sound(made.Break)), "audio/wav")
        );
    }

    private static async Task<IResult> Put(HttpContext context, TakeShelf shelf, OwnJobs jobs)
    {
        if (context.Request.ContentType != "audio/wav")
            return Results.Text("Send audio/wav.", statusCode: StatusCodes.Status415UnsupportedMediaType);
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
            size.MaxRequestBodySize = JobKind.Recording.Most;
        if (context.Request.ContentLength > JobKind.Recording.Most)
            return Results.Text(
                "That is more than half an hour; cut it, or use the command line.",
                statusCode: StatusCodes.Status413PayloadTooLarge
            );
        using var body = new MemoryStream();
        await context.Request.Body.CopyToAsync(body, context.RequestAborted);
        return await jobs.Answer(
            JobKind.Recording,
            body.Length,
            context,
            _ => Results.Text(shelf.Put(WavReader.Read(body.ToArray())))
        );
    }
}
