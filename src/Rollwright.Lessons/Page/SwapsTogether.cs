using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Playability;
using Rollwright.Music.Forms;

namespace Rollwright.Lessons.Page;

/// <summary>
/// Whether hands can go from a phrase with one lick into phrases around it with others. Only what is played near it is looked at:
/// hands keep nothing longer, and a long tune would otherwise be checked whole for every pair of licks.
/// </summary>
internal sealed class SwapsTogether
{
    // Bars as played on either side: a string that is slurred was plucked before it within that (assumption).
    private const int Around = 4;

    private readonly Break played;
    private readonly ImmutableArray<int> order;
    private readonly ILookup<int, int> places;
    private readonly List<(int Phrase, ImmutableArray<int> Changed, Break Played)> offered = [];

    public SwapsTogether(Break played)
    {
        (this.played, order) = (played, played.Order);
        places = order.Select((bar, place) => (bar, place)).ToLookup(one => one.bar, one => one.place);
    }

    /// <summary>
    /// Takes a break with a lick in a phrase where it goes with all that were taken before; those of the same phrase are chosen
    /// instead of it, not with it.
    /// </summary>
    /// <param name="phrase">The phrase.</param>
    /// <param name="with">The break with the lick.</param>
    /// <param name="changed">Indices of the written bars that are played otherwise.</param>
    public bool Take(Phrase phrase, Break with, ImmutableArray<int> changed)
    {
        var stretches = Stretches(phrase);
        var near = stretches.SelectMany(stretch => stretch).ToHashSet();
        foreach (var other in offered)
        {
            if (other.Phrase == phrase.Number || !other.Changed.Any(near.Contains))
                continue;
            var bars = other.Changed.Aggregate(with.Bars, (bars, bar) => bars.SetItem(bar, other.Played.Bars[bar]));
            if (stretches.Any(stretch => Faults(bars, stretch).Except(Faults(played.Bars, stretch)).Any()))
                return false;
        }
        offered.Add((phrase.Number, changed, with));
        return true;
    }

    // What is played around the phrase, each time that it comes.
    private List<ImmutableArray<int>> Stretches(Phrase phrase) =>
        [
            .. phrase
                .Bars.SelectMany(bar => places[bar])
                .Select(place => order[Math.Max(0, place - Around)..Math.Min(order.Length, place + Around + 1)])
                .DistinctBy(stretch => string.Join(' ', stretch)),
        ];

    // A stretch begins somewhere, and has the faults of that: a slur whose note lies before it.
    private IEnumerable<(string, int, Music.Metre.Fraction)> Faults(
        ImmutableArray<BreakBar> bars,
        ImmutableArray<int> stretch
    ) =>
        Checker
            .Check(
                played with
                {
                    Bars = [.. stretch.Select(bar => bars[bar] with { Marks = BarMarks.None })],
                    Spans = [],
                    Tune = null,
                }
            )
            .Select(fault => (fault.Rule, fault.Bar, fault.At));
}
