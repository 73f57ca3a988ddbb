using System.Net;
using System.Security.Cryptography;
using System.Text;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Svg;
using Rollwright.Sound;
using Rollwright.Sound.Browser;

namespace Rollwright.Lessons.Player;

/// <summary>
/// A break as one HTML file that opens without a server and plays: the drawing, the score and the scripts are inside, and the
/// browser is told to load nothing else and to run no other script.
/// </summary>
public static class PlayerPage
{
    /// <summary>Put before every id of the narrow drawing, as on the workbench.</summary>
    public const string NarrowPrefix = "narrow-";

    private const string Start = """
        const text = document.getElementById("worklet").textContent;
        // Some browsers take the one, some the other, where a page is a file.
        const worklet = [
          `data:text/javascript;charset=utf-8,${encodeURIComponent(text)}`,
          URL.createObjectURL(new Blob([text], { type: "text/javascript" })),
        ];
        const root = document.querySelector(".ledge");
        const score = JSON.parse(document.getElementById("score").textContent);
        entry.attach(root, document.getElementById("break"), worklet).load(score, score.title);
        root.dataset.ready = "here";

        """;

    private static readonly Lazy<string> Worklet = new(() => ModuleBundle.Of(BrowserModules.Worklet));
    private static readonly Lazy<string> Script = new(() => $"{ModuleBundle.Of(PlayerAssets.Controls)}{Start}");

    /// <exception cref="SoundException">The break is too long to be sounded.</exception>
    public static string Write(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var score = PlayerScore.WriteText(played);
        var title = Escaped(played.Title);
        var wide = Drawn(played, PageStyle.Continuous(500), "", hasFonts: true);
        var narrow = Drawn(played, PageStyle.Phone with { Scale = 1.35 }, NarrowPrefix, hasFonts: false);
        return $"""
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <meta name="color-scheme" content="light dark">
            <meta http-equiv="Content-Security-Policy" content="{Policy(Script.Value)}">
            <title>{title}</title>
            <style>
            {PlayerAssets.Text("palette.css")}{PlayerAssets.Text("page.css")}{PlayerAssets.Text("player.css")}</style>
            </head>
            <body>
            <main id="break">
            <section class="sheet" aria-labelledby="break-title">
            <h1 id="break-title">{title}</h1>
            <p class="setting">{Escaped(SettingOf(played))}</p>
            <figure class="drawing">
            <div class="wide">{wide}</div>
            <div class="narrow">{narrow}</div>
            </figure>
            </section>
            <div class="rail">
            <section class="ledge" aria-label="Player">
            {PlayerAssets.Markup}</section>
            </div>
            <p class="caution" id="player-caution">{Cautions.Hearing} {Cautions.Hands}</p>
            </main>
            <script type="application/json" id="score">{score}</script>
            <script type="text/plain" id="worklet">{Worklet.Value}</script>
            <script>{Script.Value}</script>
            </body>
            </html>

            """;
    }

    // The fonts of one drawing serve the whole document.
    private static string Drawn(Break played, PageStyle style, string prefix, bool hasFonts)
    {
        var layout = Engraver.Lay(played, style with { ShowHeading = false, Margin = 4 });
        return SvgWriter.Write(
            layout,
            options: new()
            {
                FixedSize = false,
                Prefix = prefix,
                EmbedFonts = hasFonts,
            }
        );
    }

    private static string Policy(string script)
    {
        var digest = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(script)));
        return $"default-src 'none'; script-src 'sha256-{digest}' data: blob:; worker-src data: blob:; style-src 'unsafe-inline'; "
            + "font-src data:; img-src data:; base-uri 'none'; form-action 'none'";
    }

    private static string SettingOf(Break played)
    {
        var setting = played.Setting;
        var capo = setting.Capo == 0 ? "no capo" : $"capo {setting.Capo}";
        return $"Sounds in {setting.SoundingKey}: {setting.Tuning.Name} tuning ({setting.Tuning.Spelling}), {capo}";
    }

    private static string Escaped(string text) => WebUtility.HtmlEncode(text);
}
