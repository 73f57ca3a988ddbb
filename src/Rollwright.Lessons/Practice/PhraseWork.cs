using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Playability;

namespace Rollwright.Lessons.Practice;

/// <summary>A phrase to be learnt: how hard it is, where, and how its tempo grows.</summary>
/// <param name="Phrase">One of those that are not another's repetition.</param>
/// <param name="Part">Name of its part.</param>
/// <param name="Comfortable">Units a minute up to which all its bars are comfortable; null where nothing asks for time.</param>
/// <param name="HardBar">Index of the written bar that limits it.</param>
/// <param name="Hard">Where it is hard, in order of play: that bar, after the one before it where the difficulty lies over the bar line.</param>
/// <param name="HardPlace">"bar 7", "from the end of bar 1 into bar 2".</param>
/// <param name="Why">What the hands must be quick for there; empty where nothing asks for time.</param>
/// <param name="Also">Numbers of the phrases that are played the same.</param>
/// <param name="Loop">The phrase itself, in order of play.</param>
/// <param name="Ladder">Its tempos.</param>
public sealed record PhraseWork(
    Phrase Phrase,
    string Part,
    double? Comfortable,
    int HardBar,
    ImmutableArray<int> Hard,
    string HardPlace,
    string Why,
    ImmutableArray<int> Also,
    Loop Loop,
    TempoLadder Ladder
)
{
    /// <summary>Of a break, hardest first; equal phrases once. Equally hard ones stand in the order of the break.</summary>
    /// <param name="played">The break.</param>
    /// <param name="target">Units of its tempo a minute that are asked for.</param>
    /// <param name="habits">How the person practises.</param>
    public static ImmutableArray<PhraseWork> Of(Break played, double target, PracticeHabits habits)
    {
        var tempos = TempoLimit.Of(played).Bars;
        var parts = BreakForm.Of(played);
        var phrases = parts.SelectMany(part => part.Phrases).ToList();
        return
        [
            .. parts
                .SelectMany(part => part.Phrases.Where(phrase => !phrase.IsAgain).Select(phrase => Work(part, phrase)))
                .OrderBy(work => work.Comfortable ?? double.PositiveInfinity)
                .ThenBy(work => work.Phrase.Number),
        ];

        PhraseWork Work(Part part, Phrase phrase)
        {
            var slowest = phrase
                .Bars.Select(bar => tempos[bar])
                .MinBy(bar => bar.PerMinute ?? double.PositiveInfinity)!;
            var loop = Loop.Of(played, phrase.Bars);
            return new(
                phrase,
                part.Name,
                slowest.PerMinute,
                slowest.Bar,
                HardPlaces.Bars(slowest),
                HardPlaces.Words(played, slowest),
                slowest.Words,
                [
                    .. phrases
                        .Where(other => other.Like == phrase.Number && other != phrase)
                        .Select(other => other.Number),
                ],
                // The one bar of an ending is nothing without the way into it.
                loop.Bars.Length == 1
                    ? loop.WithEntry(played)
                    : loop,
                TempoLadder.Of(slowest.PerMinute, target, habits)
            );
        }
    }
}
