using System.Collections.Immutable;

namespace Rollwright.Arranging.Advice;

/// <summary>The advice in plain sentences.</summary>
internal static class AdviceWords
{
    public static IEnumerable<string> Of(
        string style,
        double rollKeeps,
        ImmutableArray<PhraseAdvice> phrases,
        double enough,
        double worth
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
            yield return $"{what} in {Bars(phrase)}: rolls keep {Percent(phrase.Roll)} of the tune there, melodic style {(phrase.Melodic > 0.995 ? "all of it" : Percent(phrase.Melodic))}.";
        }
    }

    private static string Bars(PhraseAdvice phrase) =>
        phrase.FirstBar == phrase.LastBar
            ? $"bar {phrase.FirstBar + 1}"
            : $"bars {phrase.FirstBar + 1}–{phrase.LastBar + 1}";

    private static string Percent(double share) => $"{Math.Round(100 * share):0} %";
}
