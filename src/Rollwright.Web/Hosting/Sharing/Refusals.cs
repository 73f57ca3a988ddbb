using Microsoft.AspNetCore.Http;
using Rollwright.Class;
using Rollwright.Class.People;
using Rollwright.Library;
using Rollwright.Web.State.Sharing;

namespace Rollwright.Web.Hosting.Sharing;

/// <summary>Says who asks, and turns what is refused into an answer in a line.</summary>
internal sealed class Refusals(RequestDelegate next)
{
    public async Task InvokeAsync(HttpContext context, Visit visit)
    {
        visit.Is(context.User);
        // What belongs to one person stays on no other's screen: a page must be asked for again.
        context.Response.Headers.CacheControl = "no-cache, no-store";
        context.Response.Headers.Pragma = "no-cache";
        try
        {
            await next(context);
        }
        catch (NotForYouException no) when (!context.Response.HasStarted)
        {
            await Answer(context, StatusCodes.Status404NotFound, no.Message);
        }
        catch (ClassException no) when (!context.Response.HasStarted)
        {
            await Answer(context, StatusCodes.Status422UnprocessableEntity, $"{no.Message}. Go back and change it.");
        }
        catch (LibraryException) when (!context.Response.HasStarted)
        {
            // Where the library lies is not for everybody who asks.
            await Answer(
                context,
                StatusCodes.Status503ServiceUnavailable,
                "The library does not answer just now. Nothing is lost; try again in a minute."
            );
        }
    }

    private static Task Answer(HttpContext context, int status, string words)
    {
        context.Response.Clear();
        context.Response.StatusCode = status;
        return context.Response.WriteAsync(words);
    }
}
