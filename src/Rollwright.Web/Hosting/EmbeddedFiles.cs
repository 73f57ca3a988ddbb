using System.Reflection;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Rollwright.Engraving;
using Rollwright.Lessons.Player;

namespace Rollwright.Web.Hosting;

/// <summary>Serves the style sheet and scripts that travel inside the program, so that it works as one file, offline.</summary>
internal static class EmbeddedFiles
{
    // The faces that drawings are measured with; the page's own words are set in them too.
    private static readonly string[] Fonts =
    [
        "serif-regular",
        "serif-bold",
        "serif-italic",
        "sans-regular",
        "sans-bold",
    ];

    private const string Script = "text/javascript; charset=utf-8";

    // What the door of a class needs before anybody has come in: how it looks, and no script.
    private static readonly string[] ForAnybody =
    [
        "/assets/workbench.css",
        "/assets/player/palette.css",
        "/assets/icon.svg",
    ];

    private static readonly (string Address, string Name, string Type)[] Served =
    [
        ("/_framework/blazor.web.js", "blazor.web.js", "text/javascript"),
        ("/assets/workbench.css", "workbench.css", "text/css"),
        ("/assets/player.js", "player.js", "text/javascript"),
        ("/assets/caret.js", "caret.js", "text/javascript"),
        ("/assets/paper.js", "paper.js", "text/javascript"),
        ("/assets/steps.js", "steps.js", "text/javascript"),
        ("/assets/entry.js", "entry.js", "text/javascript"),
        ("/assets/listen.js", "listen.js", "text/javascript"),
        ("/assets/listen-worklet.js", "listen-worklet.js", "text/javascript"),
        ("/assets/search.js", "search.js", "text/javascript"),
        ("/assets/icon.svg", "icon.svg", "image/svg+xml"),
    ];

    public static void MapEmbeddedFiles(this IEndpointRouteBuilder routes)
    {
        foreach (var (address, name, type) in Served)
            Map(routes, address, Read(typeof(EmbeddedFiles).Assembly, $"assets/{name}"), $"{type}; charset=utf-8");
        foreach (var module in PlayerAssets.Modules)
            Map(routes, $"/assets/player/{module}", Encoding.UTF8.GetBytes(PlayerAssets.Text(module)), Script);
        foreach (var sheet in PlayerAssets.StyleSheets)
            Map(
                routes,
                $"/assets/player/{sheet}",
                Encoding.UTF8.GetBytes(PlayerAssets.Text(sheet)),
                "text/css; charset=utf-8"
            );
        foreach (var font in Fonts)
            Map(routes, $"/assets/{font}.ttf", Read(typeof(Engraver).Assembly, $"{font}.ttf"), "font/ttf");
    }

    private static void Map(IEndpointRouteBuilder routes, string address, byte[] bytes, string type)
    {
        var file = routes.MapGet(
            address,
            (HttpContext context) =>
            {
                // A newer program on the same port must not meet yesterday's script.
                context.Response.Headers.CacheControl = "no-cache";
                return Results.Bytes(bytes, type);
            }
        );
        if (ForAnybody.Contains(address) || type == "font/ttf")
            file.AllowAnonymous();
    }

    private static byte[] Read(Assembly assembly, string name)
    {
        using var stream =
            assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The program was built without its file '{name}'.");
        using var memory = new MemoryStream();
        stream.CopyTo(memory);
        return memory.ToArray();
    }
}
