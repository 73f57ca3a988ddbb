using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;

namespace Rollwright.Web.Hosting;

/// <summary>
/// Turns away what comes in other letters than UTF-8, which no browser sends from our pages: the framework would read any encoding whose
/// name it finds, and fails at those that .NET no longer has.
/// </summary>
internal sealed class PlainForms(RequestDelegate next)
{
    public Task InvokeAsync(HttpContext context)
    {
        if (
            !MediaTypeHeaderValue.TryParse(context.Request.ContentType, out var type)
            || type.Charset is not { Length: > 0 } letters
            || letters.AsSpan().Trim('"').Equals("utf-8", StringComparison.OrdinalIgnoreCase)
        )
            return next(context);
        context.Response.StatusCode = StatusCodes.Status415UnsupportedMediaType;
        return context.Response.WriteAsync("Send it in UTF-8.");
    }
}
