using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.TestKit;

namespace Rollwright.Engraving.Tests;

/// <summary>Layouts to make claims about: the samples in every style, and generated breaks in styles in turn.</summary>
internal static class Pages
{
    public static IReadOnlyList<PageStyle> Styles { get; } =
    [
        PageStyle.A4,
        PageStyle.Letter with
        {
            ShowLeftHand = true,
            ShowNames = true,
        },
        PageStyle.LargePrint,
        PageStyle.Phone,
        PageStyle.PhraseRows,
        PageStyle.Continuous(1200),
        PageStyle.A4 with
        {
            ShowNotation = false,
            ShowLeftHand = true,
        },
        PageStyle.A4 with
        {
            ShowTab = false,
            ShowDiagrams = true,
            ShowPhrases = true,
        },
        PageStyle.A4 with
        {
            ShowTune = true,
            ShowPhrases = true,
            ShowDiagrams = true,
            ShowNames = true,
            ShowLeftHand = true,
        },
        PageStyle.Phone with
        {
            Scale = 1.4,
            ShowRightHand = false,
            ShowChords = false,
            ShowHeading = false,
            ShowLegend = false,
        },
    ];

    /// <summary>Asks the claim of every sample in every style, then of generated breaks.</summary>
    public static void Claim(Action<Break, Layout> claim)
    {
        foreach (var style in Styles)
        {
            foreach (var sample in new[] { SampleBreaks.Small, SampleBreaks.SmallCapo2 })
                claim(sample, Engraver.Lay(sample, style));
        }
        Gen.Select(GeneratedBreaks.All, GeneratedBreaks.OneOf([.. Styles]))
            .Sample((played, style) => claim(played, Engraver.Lay(played, style)), iter: 120);
    }
}
