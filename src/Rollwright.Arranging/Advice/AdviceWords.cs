using System.Collections.Immutable;
using Rollwright.Music.Forms;

namespace Rollwright.Arranging.Advice;

/// <summary>The advice in plain sentences.</summary>
internal static class AdviceWords
{
    public static IEnumerable<string> Of(
        string style,
        double rollKeeps,
        ImmutableArray<PhraseAdvice> phrases,
        double enough,
        double worth,
        BarNumbering numbering
    )
    {
        yield return style == "roll"
            ? $"Rolls suit this tune: they keep {Percent(rollKeeps)} of it."
            : $"Rolls alone keep {Percent(rollKeeps)} of this tune: let the phrases that run go over to melodic style.";
        foreach (var phrase in phrases)
        {
            if (phrase.Roll >= enough || phrase.Melodic - phrase.Roll < worth)
                continue;
            var what = phrase.IsStepwise ? "stepwise notes on every step" : "many notes";
            yield return $"{what} in {Bars(phrase, numbering)}: rolls keep {Percent(phrase.Roll)} of the tune there, melodic style {(phrase.Melodic > 0.995 ? "all of it" : Percent(phrase.Melodic))}.";
        }
    }

    private static string Bars(PhraseAdvice phrase, BarNumbering numbering) =>
        numbering.Words([.. Enumerable.Range(phrase.FirstBar, phrase.LastBar - phrase.FirstBar + 1)]);

    private static string Percent(double share) => $"{Math.Round(100 * share):0} %";
}
