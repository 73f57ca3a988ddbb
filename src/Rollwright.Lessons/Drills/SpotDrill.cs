using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Spots;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Drills;

/// <summary>The spot in which most licks fit, with three of them to choose from.</summary>
internal static class SpotDrill
{
    private const int Choices = 3;

    public static Drill? Of(Arrangement made)
    {
        var spots = made.Spots()
            .Where(spot => spot.Best.Length >= Choices && !made.Break.Bars[spot.Bar].IsPartial)
            .OrderByDescending(spot => spot.Count)
            .ThenBy(spot => spot.Bar);
        foreach (var spot in spots)
        {
            var takes = TakesOf(made, spot);
            if (takes.Length < Choices)
                continue;
            var counting = new Counting(made.Break);
            var many = spot.Count > Choices ? $"; {spot.Count} licks fit there" : "";
            return new(
                DrillKind.Spot,
                "A spot and three licks",
                $"In {counting.NameOf(spot.Bar)}, from count {counting.Of(spot.Bar, spot.At)}, you may leave the tune{many}. Play the bar with each of these three, then keep the one you like.",
                takes
            );
        }
        return null;
    }

    private static ImmutableArray<DrillTake> TakesOf(Arrangement made, Spot spot)
    {
        var takes = ImmutableArray.CreateBuilder<DrillTake>();
        // Licks of one name differ in their fingers alone.
        foreach (var fit in spot.Best.DistinctBy(fit => fit.Place.Lick.Name))
        {
            try
            {
                var with = made.With(new LickLock(fit.Place)).Break;
                var title = $"{made.Break.Title}: {fit.Place.Lick.Name}";
                if (Excerpt.Playable(Excerpt.Of(with, [spot.Bar], title)) is { } take)
                    takes.Add(new(fit.Place.Lick.Name, take));
            }
            catch (ArrangeException)
            {
                // Not with what the player has locked: another lick is offered.
            }
            if (takes.Count == Choices)
                break;
        }
        return takes.ToImmutable();
    }
}
