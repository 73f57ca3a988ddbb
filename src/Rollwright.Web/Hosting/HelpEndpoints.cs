using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Rollwright.Web.Pages.Help;

namespace Rollwright.Web.Hosting;

/// <summary>/help, /help/{page} and /help/pictures/{name}: the handbook, offline like everything.</summary>
internal static class HelpEndpoints
{
    public static void MapHelp(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/help", () => Results.LocalRedirect($"/help/{Handbook.Pages[0].Name}"));
        routes.MapGet(
            "/help/pictures/{name}",
            IResult (string name) =>
                Handbook.Picture(name) is { } found
                    ? Results.Stream(found, "image/png")
                    : Results.Text("There is no such picture in the handbook.", statusCode: 404)
        );
        routes.MapGet(
            "/help/{page}",
            IResult (string page) =>
                Handbook.Find(page) is { } found
                    ? new RazorComponentResult<HelpDocument>(new { Page = found })
                    : Results.Text("There is no such page in the handbook: /help has all of them.", statusCode: 404)
        );
    }
}
