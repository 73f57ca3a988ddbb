using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Rollwright.Music.Tunes;
using Rollwright.Web.State;

namespace Rollwright.Web.Hosting;

/// <summary>
/// The forms of a break that was made: /made/{id}/{name}.{ending} for each form, with ?tempo= for the sound, and
/// /made/{id}/follow for the times of its strokes.
/// </summary>
internal static class MadeEndpoints
{
    /// <summary>Units a minute that the page offers: from learning a lick to faster than a jam.</summary>
    public const double SlowestTempo = 20;
    public const double FastestTempo = 400;

    public static void MapMade(this IEndpointRouteBuilder routes)
    {
        routes.MapGet(
            "/made/{id}/follow",
            (string id, double? tempo, Shelf shelf) =>
                shelf.TryFind(id, out var made) ? Results.Json(Follow.Of(made.Break, TempoOf(made, tempo))) : Gone()
        );
        routes.MapGet("/made/{id}/{file}", Form);
    }

    private static IResult Form(string id, string file, double? tempo, bool? inline, Shelf shelf, SoundShelf sounds)
    {
        if (!shelf.TryFind(id, out var made))
            return Gone();
        var ending = Path.GetExtension(file).TrimStart('.').ToLowerInvariant();
        // The page plays the sound from here; a download is named for its folder of downloads.
        var name = inline == true ? null : $"{made.Stem}.{ending}";
        if (ending == "wav")
            return Results.Bytes(
                sounds.Wav(made, TempoOf(made, tempo)),
                "audio/wav",
                name,
                enableRangeProcessing: true
            );
        return BreakForm.Find(ending) is { } form
            ? Results.Bytes(form.Write(made.Break), form.Type, name)
            : Results.Text($"There is no form '{ending}'.", statusCode: StatusCodes.Status404NotFound);
    }

    private static Tempo TempoOf(Made made, double? perMinute) =>
        perMinute is { } asked
            ? made.Break.Tempo with
            {
                PerMinute = Math.Clamp(asked, SlowestTempo, FastestTempo),
            }
            : made.Break.Tempo;

    private static IResult Gone() =>
        Results.Text(
            "This break is no longer kept. Go back to the workbench and make it again.",
            statusCode: StatusCodes.Status404NotFound
        );
}
