namespace Rollwright.Engraving;

/// <summary>The paper and what is shown on it. Lengths are points (1/72 inch).</summary>
public sealed record PageStyle
{
    /// <summary>Width of the page, 150 at least.</summary>
    public required double Width { get; init; }

    /// <summary>Height of a page, 300 at least; null for one page as long as the music.</summary>
    public double? Height { get; init; }

    /// <summary>All bars in one endless line, each as wide as is best to read; the page is as wide as the line then.</summary>
    public bool InOneLine { get; init; }

    /// <summary>White on all sides.</summary>
    public double Margin { get; init; } = 40;

    /// <summary>Size of everything, 0.5 to 3; 1 is meant for a music stand, 1.4 is large print.</summary>
    public double Scale { get; init; } = 1;

    /// <summary>
    /// Whether everything may be set up to an eighth smaller where that saves a page: nobody likes to turn one while
    /// playing.
    /// </summary>
    public bool MaySaveAPage { get; init; } = true;

    /// <summary>The staff with notes above the tab. Without it the tab carries stems for the rhythm.</summary>
    public bool ShowNotation { get; init; } = true;

    /// <summary>Stems and beams under a tab that stands alone. Without them the distances between the numbers say the rhythm.</summary>
    public bool ShowRhythm { get; init; } = true;

    /// <summary>The tab. Without it the notes stand alone, with the right hand's fingers under them.</summary>
    public bool ShowTab { get; init; } = true;

    /// <summary>The notes are the tune's, as fiddlers read them, not the break's.</summary>
    internal bool OfTune { get; init; }

    /// <summary>The tune itself as a small line of notes above each system, where the break holds it.</summary>
    public bool ShowTune { get; init; }

    /// <summary>Each phrase on a line of its own, as it is taught; parted only where the page is too narrow for it.</summary>
    public bool ByPhrases { get; init; }

    /// <summary>
    /// With the tune: each of its notes is joined to the stroke that plays it, slanted where it is moved; the head of one that
    /// is left out is hollow.
    /// </summary>
    public bool ShowFates { get; init; }

    /// <summary>Under each bar a band, as full as the bar's comfortable tempo is used by the break's own, with that tempo.</summary>
    public bool ShowTempos { get; init; }

    /// <summary>Brackets over the phrases, two bars each (common practice of fiddle tunes), numbered as they are taught.</summary>
    public bool ShowPhrases { get; init; }

    /// <summary>A diagram of each chord over its name where it comes first.</summary>
    public bool ShowDiagrams { get; init; }

    /// <summary>T I M under the tab.</summary>
    public bool ShowRightHand { get; init; } = true;

    /// <summary>Left-hand fingers above the tab.</summary>
    public bool ShowLeftHand { get; init; }

    public bool ShowChords { get; init; } = true;

    /// <summary>Numbers that carry the tune are bold with a line under them.</summary>
    public bool ShowMelody { get; init; } = true;

    /// <summary>Names of rolls and licks above the tab.</summary>
    public bool ShowNames { get; init; }

    /// <summary>Title, credit, tuning, capo, keys.</summary>
    public bool ShowHeading { get; init; } = true;

    /// <summary>One line that says what the signs of the page mean.</summary>
    public bool ShowLegend { get; init; } = true;

    /// <summary>ISO 216: 210 × 297 mm.</summary>
    public static PageStyle A4 { get; } = new() { Width = 595.276, Height = 841.89 };

    /// <summary>ANSI/ASME Y14.1 size A: 8.5 × 11 inches.</summary>
    public static PageStyle Letter { get; } = new() { Width = 612, Height = 792 };

    /// <summary>A4 with everything 1.4 times as large.</summary>
    public static PageStyle LargePrint { get; } = A4 with { Scale = 1.4, MaySaveAPage = false };

    /// <summary>One long page for a screen of that width.</summary>
    public static PageStyle Continuous(double width) => new() { Width = width, Margin = Math.Min(24, width / 30) };

    /// <summary>One long column for a telephone, mostly two bars wide: numbers as large as its text.</summary>
    public static PageStyle Phone { get; } = Continuous(390) with { Scale = 1.35 };

    /// <summary>
    /// One phrase a row, as a break is taught: the tune above, joined to the tab below, and how much of a comfortable tempo
    /// each bar uses.
    /// </summary>
    public static PageStyle PhraseRows { get; } =
        Continuous(430) with
        {
            ByPhrases = true,
            ShowNotation = false,
            ShowTune = true,
            ShowFates = true,
            ShowTempos = true,
            ShowPhrases = true,
            MaySaveAPage = false,
        };

    /// <summary>The tab alone in one line that runs through a video.</summary>
    public static PageStyle Strip { get; } =
        Continuous(150) with
        {
            InOneLine = true,
            Margin = 7,
            ShowNotation = false,
            ShowHeading = false,
            ShowLegend = false,
            MaySaveAPage = false,
        };

    /// <summary>The same, as low as it can be: lines, numbers and slurs alone, so that more of the video is seen.</summary>
    public static PageStyle LowStrip { get; } =
        Strip with
        {
            Margin = 1.5,
            ShowRhythm = false,
            ShowRightHand = false,
            ShowChords = false,
        };

    /// <exception cref="ArgumentException">A length is out of its range.</exception>
    internal static void Check(PageStyle style)
    {
        if (style.Width is not (>= 150 and <= 20_000) || style.Width - (2 * style.Margin) < 100)
            throw Wrong($"A page {style.Width} points wide leaves no room for music; take 150 to 20000.");
        if (style.Height is { } height && (height is not >= 300 || height - (2 * style.Margin) < 200))
            throw Wrong($"A page {height} points high leaves no room for music; take 300 or more.");
        if (style.Margin is not >= 0)
            throw Wrong($"The margin is {style.Margin}; it must be 0 or more.");
        if (style.Scale is not (>= 0.5 and <= 3))
            throw Wrong($"The scale is {style.Scale}; it must be from 0.5 to 3.");

        if (!style.ShowNotation && !style.ShowTab)
            throw Wrong("There is nothing to draw: the page shows neither the notes nor the tab; ask for one of them.");

        ArgumentException Wrong(string message) => new(message, nameof(style));
    }
}
