using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Locks;
using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Drills;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Web.State.Licks;

/// <summary>A lick put where it would stand, to be kept or only to be heard.</summary>
public static class LickTrial
{
    /// <summary>The break with the lick; what was put into the spot before makes room for it.</summary>
    /// <exception cref="ArrangeException">Hands cannot do it with what else is kept.</exception>
    public static Arrangement Put(Arrangement made, LickPlace place)
    {
        ArgumentNullException.ThrowIfNull(made);
        var kept = new LickLock(place);
        ImmutableArray<Lock> old =
        [
            .. made.Locks.Where(other => other is LickLock && other.First <= kept.Last && kept.First <= other.Last),
        ];
        return made.Without(old).With(kept);
    }

    /// <summary>Its bar with the lick in, and the bar that leads into it in order of play.</summary>
    /// <exception cref="ArrangeException">Hands cannot do it with what else is kept.</exception>
    public static Break Hear(Arrangement made, LickPlace place)
    {
        var played = Put(made, place).Break;
        var bar = made.Grid.Steps[place.Step].Bar;
        var at = played.Order.IndexOf(bar);
        return Excerpt.Of(played, at > 0 ? [played.Order[at - 1], bar] : [bar], place.Lick.Name);
    }
}
