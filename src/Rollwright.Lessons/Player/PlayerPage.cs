using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Svg;
using Rollwright.Sound;
using Rollwright.Sound.Browser;

namespace Rollwright.Lessons.Player;

/// <summary>A break as one HTML file that opens without a server and plays.</summary>
public static class PlayerPage
{
    /// <summary>Put before every id of the narrow drawing, as on the workbench.</summary>
    public const string NarrowPrefix = "narrow-";

    private const string Start = """
        const score = JSON.parse(told);
        entry.attach(root, document.getElementById("break"), worklet).load(score, score.title);
        root.dataset.ready = "here";
        """;

    /// <exception cref="SoundException">The break is too long to be sounded.</exception>
    public static string Write(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var wide = Drawn(played, PageStyle.Continuous(500), "", hasFonts: true);
        var narrow = Drawn(played, PageStyle.Phone with { Scale = 1.35 }, NarrowPrefix, hasFonts: false);
        var main = $"""
            <section class="sheet" aria-labelledby="break-title">
            <h1 id="break-title">{PageFile.Escaped(played.Title)}</h1>
            <p class="setting">{PageFile.Escaped(SettingOf(played))}</p>
            <figure class="drawing">
            <div class="wide">{wide}</div>
            <div class="narrow">{narrow}</div>
            </figure>
            </section>
            """;
        return PageFile.Write(
            played.Title,
            [PlayerAssets.Text("palette.css"), PlayerAssets.Text("page.css"), PlayerAssets.Text("player.css")],
            main,
            PlayerScore.WriteText(played),
            PlayerAssets.Controls,
            Start
        );
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

    private static string SettingOf(Break played)
    {
        var setting = played.Setting;
        var capo = setting.Capo == 0 ? "no capo" : $"capo {setting.Capo}";
        return $"Sounds in {setting.SoundingKey}: {setting.Tuning.Name} tuning ({setting.Tuning.Spelling}), {capo}";
    }
}
