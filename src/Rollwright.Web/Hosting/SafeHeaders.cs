using Microsoft.AspNetCore.Http;

namespace Rollwright.Web.Hosting;

/// <summary>Tells the browser to load nothing from elsewhere, and to run no script that a tune's title might carry.</summary>
internal sealed class SafeHeaders(RequestDelegate next)
{
    private const string Policy =
        "default-src 'self'; style-src 'self' 'unsafe-inline'; font-src 'self' data:; img-src 'self' data:; "
        + "connect-src 'self' ws:; object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    public Task InvokeAsync(HttpContext context)
    {
        context.Response.Headers.ContentSecurityPolicy = Policy;
        context.Response.Headers.XContentTypeOptions = "nosniff";
        context.Response.Headers["Referrer-Policy"] = "no-referrer";
        return next(context);
    }
}
