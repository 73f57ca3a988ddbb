using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Reasons;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Advice;

/// <summary>Compares settings and styles by solving the tune in each.</summary>
public static class Advisor
{
    /// <summary>Rolls are advised where they keep at least this share of the tune (assumption).</summary>
    public const double RollsKeepEnough = 0.9;

    private const double PhraseKeepsEnough = 0.8;
    private const double WorthTheChange = 0.15;

    /// <summary>What a share of the tune weighs against the work of the hands, a bar (assumption).</summary>
    private const int TunePrice = 12000;

    private static readonly ImmutableArray<Term> OfTheTune =
    [
        Term.MelodyMissed,
        Term.MelodyOctave,
        Term.Consistency,
        Term.Lick,
        Term.Tag,
        Term.OutOfRoll,
    ];

    /// <summary>Whether rolls suit a tune, by what they keep of it.</summary>
    public static bool RollsSuit(Solver roll) => Kept.Share(roll.Lattice, roll.Best) >= RollsKeepEnough;

    internal static TuneAdvice Of(Tune tune, Drafts drafts)
    {
        var ways = StyleTable
            .Solo.SelectMany(style => drafts.Of(style).Select(way => Judge(tune, style, way)))
            .ToImmutableArray();
        var setting = drafts.Of(StyleTable.Roll)[0];
        var roll = setting.Draft;
        var melodicWays = drafts.Of(StyleTable.Find("melodic")!);
        var melodic = (
            melodicWays.FirstOrDefault(way => way.Offer.Setting == setting.Offer.Setting) ?? melodicWays[0]
        ).Draft;
        var phrases = PhrasesOf(roll, melodic);
        var style = RollsSuit(roll) ? "roll" : "mixed";
        ways = [.. ways.OrderBy(way => way.Style != style).ThenBy(way => way.Price)];
        return new(
            ways,
            phrases,
            style,
            [
                .. AdviceWords.Of(
                    style,
                    Kept.Share(roll.Lattice, roll.Best),
                    phrases,
                    PhraseKeepsEnough,
                    WorthTheChange,
                    tune.Numbering
                ),
            ]
        );
    }

    private static AdvisedWay Judge(Tune tune, Style style, Drafts.Way way)
    {
        var kept = Kept.Share(way.Draft.Lattice, way.Draft.Best);
        var work = ReasonFinder
            .Terms(way.Draft)
            .Where(entry => !OfTheTune.Contains(entry.Term))
            .Sum(entry => entry.Price);
        var perBar = work / tune.Bars.Length;
        var price = (int)(TunePrice * (1 - kept)) + perBar + (way.Offer.Price / tune.Bars.Length);
        return new(way.Offer.Setting, style.Name, kept, perBar, price);
    }

    private static ImmutableArray<PhraseAdvice> PhrasesOf(Solver roll, Solver melodic)
    {
        var grid = roll.Lattice.Grid;
        var phrases = ImmutableArray.CreateBuilder<PhraseAdvice>();
        for (var first = 0; first < grid.Bars.Length; )
        {
            var last = first;
            while (last + 1 < grid.Bars.Length && !(grid.OpensPhrase(last + 1) && grid.IsFull(last)))
                last++;
            var bars = Enumerable.Range(first, last - first + 1).ToArray();
            phrases.Add(
                new(
                    first,
                    last,
                    Kept.Share(roll.Lattice, roll.Best, bars),
                    Kept.Share(melodic.Lattice, melodic.Best, bars),
                    IsStepwise(grid, bars)
                )
            );
            first = last + 1;
        }
        return phrases.ToImmutable();
    }

    private static bool IsStepwise(StepGrid grid, int[] bars)
    {
        var onsets = bars.SelectMany(bar => grid.Steps.AsSpan()[grid.Bars[bar]].ToArray()).ToArray();
        var close = 0;
        for (var i = 1; i < onsets.Length; i++)
        {
            if (
                onsets[i].Onset is { } key
                && onsets[i - 1].Onset is { } before
                && Math.Abs(key - before) is > 0 and <= 4
            )
                close++;
        }
        return close * 2 > onsets.Length;
    }
}
