using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Rollwright.Web.Hosting;

/// <summary>Serves the style sheet and scripts that travel inside the program, so that it works as one file, offline.</summary>
internal static class EmbeddedFiles
{
    private static readonly (string Address, string Name, string Type)[] Served =
    [
        ("/_framework/blazor.web.js", "blazor.web.js", "text/javascript"),
        ("/assets/workbench.css", "workbench.css", "text/css"),
        ("/assets/player.js", "player.js", "text/javascript"),
        ("/assets/icon.svg", "icon.svg", "image/svg+xml"),
    ];

    public static void MapEmbeddedFiles(this IEndpointRouteBuilder routes)
    {
        foreach (var (address, name, type) in Served)
        {
            var bytes = Read(name);
            routes.MapGet(
                address,
                (HttpContext context) =>
                {
                    // A newer program on the same port must not meet yesterday's script.
                    context.Response.Headers.CacheControl = "no-cache";
                    return Results.Bytes(bytes, $"{type}; charset=utf-8");
                }
            );
        }
    }

    private static byte[] Read(string name)
    {
        using var stream =
            typeof(EmbeddedFiles).Assembly.GetManifestResourceStream($"assets/{name}")
            ?? throw new InvalidOperationException($"The program was built without its file 'assets/{name}'.");
        using var memory = new MemoryStream();
        stream.CopyTo(memory);
        return memory.ToArray();
    }
}
