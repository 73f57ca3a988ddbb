using Rollwright.Arranging;
using Rollwright.Banjo.Licks;
using Rollwright.Music.Chords;

namespace Rollwright.Web.State.Licks;

/// <summary>Notes of the break that someone wants to keep as a lick of their own.</summary>
public static class OwnLick
{
    /// <summary>The lick with what is worked out of it, or what stands in its way.</summary>
    /// <param name="made">What is shown.</param>
    /// <param name="first">First step of the grid.</param>
    /// <param name="last">Last step of the grid.</param>
    /// <param name="name">What the hands do.</param>
    /// <param name="chord">Named by the person; null for the tune's where the notes fit it, else the one that they fit best.</param>
    /// <param name="level">Named by the person; null is worked out.</param>
    public static (LickProposal? Proposal, LickFault? Fault) Propose(
        Arrangement made,
        int first,
        int last,
        string name,
        Chord? chord,
        int? level
    )
    {
        ArgumentNullException.ThrowIfNull(made);
        var grid = made.Grid;
        var (from, to) = (grid.Steps[first], grid.Steps[last]);
        if (from.Bar != to.Bar)
            return (
                null,
                new("length", "a lick stays within a bar, for so it is offered", "end it before the bar line")
            );
        var (steps, fault) = LickExtract.Of(made.Break, from.Bar, from.At, to.At + to.Length);
        if (fault is not null)
            return (null, fault);
        var tuning = made.Break.Setting.Tuning;
        var said = new LickProposal.Said { Level = level, IsInThrees = grid.IsInThrees(from.Bar) };
        var guess = LickProposal.Of(name, tuning, steps, said with { Chord = chord });
        if (chord is null && from.Chord is { } here && here != guess.Lick.Chord && LickProposal.Fits(guess.Lick, here))
            guess = LickProposal.Of(name, tuning, steps, said with { Chord = here });
        return (guess, null);
    }
}
