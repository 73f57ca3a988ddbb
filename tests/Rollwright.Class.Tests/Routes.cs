using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Rollwright.Web.Hosting;

namespace Rollwright.Class.Tests;

/// <summary>Every route that a server has, by the server's own list.</summary>
internal static partial class Routes
{
    /// <summary>Method and pattern; where a route takes any method, GET and POST.</summary>
    public static IEnumerable<(string Method, string Pattern)> Of(Workbench workbench) =>
        workbench
            .Endpoints.OfType<RouteEndpoint>()
            .SelectMany(endpoint =>
                (
                    endpoint.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods is { Count: > 0 } methods
                        ? methods
                        : ["GET", "POST"]
                ).Select(method => (method, "/" + endpoint.RoutePattern.RawText!.TrimStart('/')))
            )
            .Distinct();

    /// <summary>The pattern with something in each of its places, "{id:guid}" and the like.</summary>
    public static string Filled(string pattern, Func<string, string> place) =>
        Place().Replace(pattern, match => place(match.Value));

    [GeneratedRegex(@"\{[^}]+\}", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Place();
}
