using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Rollwright.Engraving.Svg;
using Rollwright.Sound;
using Rollwright.Sound.Browser;
using Rollwright.Web.State;
using Rollwright.Web.State.Jobs;

namespace Rollwright.Web.Hosting;

/// <summary>
/// The forms of a break that was made: /made/{id}/{name}.{ending} for each form, /made/{id}/score for the player, and
/// /made/{id}/page/{number} for the browser's own printing.
/// </summary>
internal static class MadeEndpoints
{
    public static void MapMade(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/made/{id}/score", Score);
        routes.MapGet("/made/{id}/page/{number:int}", Page);
        routes.MapGet("/made/{id}/{file}", Form);
    }

    private static IResult Score(string id, Shelf shelf)
    {
        if (!shelf.TryFind(id, out var made))
            return Gone();
        try
        {
            return Results.Bytes(PlayerScore.Write(made.Break), "application/json");
        }
        catch (SoundException no)
        {
            return Results.Text(no.Message, statusCode: StatusCodes.Status422UnprocessableEntity);
        }
    }

    private static IResult Page(string id, int number, Shelf shelf)
    {
        if (!shelf.TryFind(id, out var made))
            return Gone();
        var paper = made.Paper;
        return number >= 1 && number <= paper.Pages.Length
            ? Results.Text(SvgWriter.Write(paper, number - 1, new() { EmbedFonts = true }), "image/svg+xml")
            : Results.Text($"There is no page {number}.", statusCode: StatusCodes.Status404NotFound);
    }

    private static async Task<IResult> Form(string id, string file, Shelf shelf, OwnJobs jobs, HttpContext context)
    {
        if (!shelf.TryFind(id, out var made))
            return Gone();
        var ending = Path.GetExtension(file).TrimStart('.').ToLowerInvariant();
        if (FileForm.Find(ending) is not { } form)
            return Results.Text($"There is no form '{ending}'.", statusCode: StatusCodes.Status404NotFound);
        return await jobs.Answer(
            form.Kind,
            made.Break.Bars.Length,
            context,
            _ => Results.Bytes(form.Write(made.Break), form.Type, $"{made.Stem}.{ending}")
        );
    }

    private static IResult Gone() =>
        Results.Text(
            "This break is no longer kept. Go back to the workbench and make it again.",
            statusCode: StatusCodes.Status404NotFound
        );
}
