using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Spots;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Page;

/// <summary>
/// A lick that a reader may put into a phrase. Whatever is chosen in other phrases, hands can play it: swaps of neighbouring
/// phrases that would not go together are not offered.
/// </summary>
/// <param name="Phrase">Number of the phrase that it stands in; nothing outside of it changes.</param>
/// <param name="Name">The lick's name.</param>
/// <param name="Where">"bar 2, from 2".</param>
/// <param name="Played">The break with it.</param>
public sealed record LickSwap(int Phrase, string Name, string Where, Break Played)
{
    /// <summary>So many are offered in a phrase: a page has to hold them all, written and drawn (assumption).</summary>
    public const int MostInPhrase = 3;

    /// <summary>What fits in the phrases of a lesson, cheapest first in each.</summary>
    /// <param name="made">The break, and how it came about.</param>
    /// <param name="phrases">Numbers of the phrases that are taught.</param>
    public static ImmutableArray<LickSwap> Of(Arrangement made, IEnumerable<int> phrases)
    {
        ArgumentNullException.ThrowIfNull(made);
        var spots = made.Spots();
        var counting = new Counting(made.Break);
        var all = BreakForm.Phrases(made.Break).ToDictionary(phrase => phrase.Number);
        var together = new SwapsTogether(made.Break);
        var swaps = ImmutableArray.CreateBuilder<LickSwap>();
        foreach (var number in phrases.Order())
        {
            var phrase = all[number];
            var fits = spots
                .Where(spot => phrase.Bars.Contains(spot.Bar))
                .SelectMany(spot => spot.Best.Select(fit => (Spot: spot, Fit: fit)))
                .Where(one => !made.Has(one.Fit.Place))
                .OrderBy(one => one.Fit.Whole)
                .DistinctBy(one => (one.Spot.Bar, one.Spot.At, one.Fit.Place.Lick.Name));
            var there = 0;
            foreach (var (spot, fit) in fits)
            {
                if (there == MostInPhrase)
                    break;
                if (Put(made, phrase, fit) is not var (with, changed) || !together.Take(phrase, with, changed))
                    continue;
                var where = $"{counting.NameOf(spot.Bar)}, from {counting.Of(spot.Bar, spot.At)}";
                swaps.Add(new(number, fit.Place.Lick.Name, where, with));
                there++;
            }
        }
        return swaps.ToImmutable();
    }

    /// <summary>Indices of the written bars in which it differs from the break.</summary>
    public ImmutableArray<int> ChangedIn(Break played) => Changed(played, Played);

    // Solved again around the lick, and taken where that stays within the phrase.
    private static (Break With, ImmutableArray<int> Changed)? Put(Arrangement made, Phrase phrase, LickFit fit)
    {
        try
        {
            var with = made.With(new LickLock(fit.Place)).Break;
            var changed = Changed(made.Break, with);
            return !changed.IsEmpty && changed.All(phrase.Bars.Contains) ? (with, changed) : null;
        }
        catch (ArrangeException)
        {
            // Not with what the player has locked.
            return null;
        }
    }

    private static ImmutableArray<int> Changed(Break played, Break other) =>
        [
            .. Enumerable
                .Range(0, played.Bars.Length)
                .Where(bar => !played.Bars[bar].Strokes.AsSpan().SequenceEqual(other.Bars[bar].Strokes.AsSpan())),
        ];
}
