using Microsoft.AspNetCore.Http;

namespace Rollwright.Web.Hosting;

/// <summary>
/// Tells the browser to load nothing from elsewhere, and to run no script that a tune's title might carry; turns away what a page
/// of another origin asks for, a socket too, for browsers let any page open one.
/// </summary>
internal sealed class SafeHeaders(RequestDelegate next)
{
    private const string Policy =
        "default-src 'self'; style-src 'self' 'unsafe-inline'; font-src 'self' data:; img-src 'self' data:; "
        + "media-src 'self' blob:; connect-src 'self' ws: wss:; object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    public Task InvokeAsync(HttpContext context)
    {
        context.Response.Headers.ContentSecurityPolicy = Policy;
        context.Response.Headers.XContentTypeOptions = "nosniff";
        // Stricter, browsers would send a form of our own with no origin, as they do from a stranger's page.
        context.Response.Headers["Referrer-Policy"] = "same-origin";
        context.Response.Headers["Cross-Origin-Resource-Policy"] = "same-origin";
        if (IsOfAnother(context.Request))
        {
            context.Response.StatusCode = StatusCodes.Status403Forbidden;
            return context.Response.WriteAsync("The workbench answers its own pages alone.");
        }
        return next(context);
    }

    // Who asks without a browser (a script of one's own) names no origin.
    private static bool IsOfAnother(HttpRequest request) =>
        request.Headers.Origin is [{ } origin, ..]
        && !origin.Equals($"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);
}
