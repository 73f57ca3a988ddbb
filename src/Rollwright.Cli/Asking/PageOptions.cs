using System.Collections.Immutable;
using System.CommandLine;
using Rollwright.Cli.Files;
using Rollwright.Engraving;
using Rollwright.Web.State;

namespace Rollwright.Cli.Asking;

/// <summary>What commands that draw let people choose: the paper, the staves, what is shown.</summary>
internal sealed class PageOptions
{
    private static readonly ImmutableDictionary<string, PageStyle> Papers = new Dictionary<string, PageStyle>
    {
        ["a4"] = PageStyle.A4,
        ["letter"] = PageStyle.Letter,
        ["large"] = PageStyle.LargePrint,
        ["phone"] = PageStyle.Phone,
        ["column"] = FileForm.PictureStyle,
        ["rows"] = PageStyle.PhraseRows,
    }.ToImmutableDictionary();

    private static readonly ImmutableDictionary<string, Func<PageStyle, bool, PageStyle>> Parts = new Dictionary<
        string,
        Func<PageStyle, bool, PageStyle>
    >
    {
        ["right"] = (style, on) => style with { ShowRightHand = on },
        ["left"] = (style, on) => style with { ShowLeftHand = on },
        ["chords"] = (style, on) => style with { ShowChords = on },
        ["diagrams"] = (style, on) => style with { ShowDiagrams = on },
        ["melody"] = (style, on) => style with { ShowMelody = on },
        ["tune"] = (style, on) => style with { ShowTune = on },
        ["phrases"] = (style, on) => style with { ShowPhrases = on },
        ["names"] = (style, on) => style with { ShowNames = on },
        ["fates"] = (style, on) => style with { ShowTune = on || style.ShowTune, ShowFates = on },
        ["tempos"] = (style, on) => style with { ShowTempos = on },
        ["heading"] = (style, on) => style with { ShowHeading = on },
        ["legend"] = (style, on) => style with { ShowLegend = on },
        [Spots] = (style, _) => style,
    }.ToImmutableDictionary();

    private const string Spots = "spots";

    private readonly Option<string?> paper = new("--page")
    {
        Description =
            "The paper of pdf, png and svg: a4, letter, large (large print), phone, column (one page as long as the music) or rows (one phrase a row, joined to the tune).",
    };
    private readonly Option<string?> staves = new("--staves")
    {
        Description = "Which staves are drawn: both, tab or notation.",
    };
    private readonly Option<string?> show = new("--show")
    {
        Description =
            "What is drawn besides, such as left,phrases: left (fingers of the left hand), diagrams (of chords), tune (a small line above), phrases, names (of rolls and licks), fates (what becomes of each note of the tune), tempos (up to which a bar is comfortable), spots (with arrange).",
    };
    private readonly Option<string?> hide = new("--hide")
    {
        Description =
            "What is not drawn, such as right,legend: right, chords, melody (bold and lines), heading, legend.",
    };
    private readonly Option<double?> dpi = new("--dpi")
    {
        Description = "Dots per inch of png, 10 to 1200; 192 by default.",
    };

    public void AddTo(Command command)
    {
        foreach (var option in new Option[] { paper, staves, show, hide, dpi })
            command.Options.Add(option);
    }

    /// <exception cref="RequestException">A value is none of those there are.</exception>
    public PageChoice Read(ParseResult parsed)
    {
        var name = parsed.GetValue(paper);
        PageStyle? chosen = null;
        if (name is not null && !Papers.TryGetValue(name, out chosen))
            throw new RequestException($"--page: no paper is called '{name}'; known are {Names(Papers.Keys)}");
        var shown = Listed(parsed.GetValue(show), "--show");
        var hidden = Listed(parsed.GetValue(hide), "--hide");
        var both = parsed.GetValue(staves);
        if (both is not (null or "both" or "tab" or "notation"))
            throw new RequestException($"--staves: '{both}' is none of both, tab, notation");
        if (parsed.GetValue(dpi) is < 10 or > 1200)
            throw new RequestException($"--dpi {parsed.GetValue(dpi)}: take 10 to 1200 dots per inch");
        return new(chosen, Change, shown.Contains(Spots), parsed.GetValue(dpi));

        PageStyle Change(PageStyle style)
        {
            if (both is not null)
                style = style with { ShowNotation = both != "tab", ShowTab = both != "notation" };
            style = shown.Aggregate(style, (all, part) => Parts[part](all, true));
            return hidden.Aggregate(style, (all, part) => Parts[part](all, false));
        }
    }

    private static ImmutableArray<string> Listed(string? list, string option)
    {
        ImmutableArray<string> names =
        [
            .. (list ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries),
        ];
        return names.FirstOrDefault(name => !Parts.ContainsKey(name)) is { } unknown
            ? throw new RequestException($"{option}: nothing is called '{unknown}'; known are {Names(Parts.Keys)}")
            : names;
    }

    private static string Names(IEnumerable<string> names) => string.Join(", ", names.Order(StringComparer.Ordinal));
}
