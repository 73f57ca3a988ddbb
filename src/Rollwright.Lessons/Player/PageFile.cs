using System.Net;
using System.Security.Cryptography;
using System.Text;
using Rollwright.Sound.Browser;

namespace Rollwright.Lessons.Player;

/// <summary>
/// A page of one HTML file that opens without a server and plays: what it needs is inside, and the browser is told to load
/// nothing else and to run no other script.
/// </summary>
internal static class PageFile
{
    // Before a page's own lines: the worklet, which a page that is a file has to hand over as text.
    private const string Worklet = """
        const text = document.getElementById("worklet").textContent;
        // Some browsers take the one, some the other, where a page is a file.
        const worklet = [
          `data:text/javascript;charset=utf-8,${encodeURIComponent(text)}`,
          URL.createObjectURL(new Blob([text], { type: "text/javascript" })),
        ];
        const root = document.querySelector(".ledge");
        const told = document.getElementById("told").textContent;

        """;

    // A recording stands beside the page, or somewhere on the web.
    private const string TakePolicy = "; media-src 'self' file: https: data: blob:";

    private static readonly Lazy<string> WorkletModules = new(() => ModuleBundle.Of(BrowserModules.Worklet));

    /// <param name="title">Its title, as text.</param>
    /// <param name="styles">Its style sheets, in order.</param>
    /// <param name="main">HTML of what stands in main; the player's rail comes after it.</param>
    /// <param name="told">What its script finds as text in <c>told</c>; nothing in it may end a script element.</param>
    /// <param name="entry">The module that it starts.</param>
    /// <param name="start">Lines that start it: <c>entry</c> is the module, <c>root</c> the player.</param>
    /// <param name="hasTake">Whether a recording may be loaded from beside it.</param>
    public static string Write(
        string title,
        IEnumerable<string> styles,
        string main,
        string told,
        string entry,
        string start,
        bool hasTake = false
    )
    {
        var script = $"{ModuleBundle.Of(entry)}{Worklet}{start}\n";
        return $"""
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <meta name="color-scheme" content="light dark">
            <meta http-equiv="Content-Security-Policy" content="{Policy(script)}{(hasTake ? TakePolicy : "")}">
            <title>{Escaped(title)}</title>
            <style>
            {string.Concat(styles)}</style>
            </head>
            <body>
            <main id="break">
            {main}
            <div class="rail">
            <section class="ledge" aria-label="Player">
            {PlayerAssets.Markup}</section>
            </div>
            <p class="caution" id="player-caution">{Cautions.Hearing} {Cautions.Hands}</p>
            </main>
            <script type="text/plain" id="told">{told}</script>
            <script type="text/plain" id="worklet">{WorkletModules.Value}</script>
            <script>{script}</script>
            </body>
            </html>

            """;
    }

    /// <summary>Text as HTML: nothing in it is markup.</summary>
    public static string Escaped(string text) => WebUtility.HtmlEncode(text);

    private static string Policy(string script)
    {
        var digest = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(script)));
        return $"default-src 'none'; script-src 'sha256-{digest}' data: blob:; worker-src data: blob:; style-src 'unsafe-inline'; "
            + "font-src data:; img-src data:; base-uri 'none'; form-action 'none'";
    }
}
