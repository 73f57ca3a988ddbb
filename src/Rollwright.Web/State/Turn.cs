using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Backup;

namespace Rollwright.Web.State;

/// <summary>One state of the piece: what was asked last, and what came of it.</summary>
/// <param name="Words">What was asked: "level 4", "bar 3, beat 2: keeps its notes".</param>
/// <param name="Wishes">All that was wished.</param>
/// <param name="Break">The break with its locks; versions and parts behind someone are made of it.</param>
/// <param name="Arrangement">What is shown: the break, or what is played instead.</param>
/// <param name="Differs">Share of the steps that sound otherwise than the break, of a version.</param>
/// <param name="Made">The shown one under its address.</param>
/// <param name="Drawing">The shown one drawn.</param>
public sealed record Turn(
    string Words,
    Wishes Wishes,
    Arrangement Break,
    Arrangement Arrangement,
    double? Differs,
    Made Made,
    Drawing Drawing
)
{
    /// <summary>Its own; the library knows by it what it has kept already.</summary>
    public Guid Id { get; init; } = Guid.NewGuid();

    /// <summary>Which of the locks before could not be kept, and why, in one line; empty for none.</summary>
    public string LetGo { get; init; } = "";

    /// <summary>
    /// Lets go of what only the turn that is shown needs: the tables of the arrangement, some megabytes, and the drawing. Both are
    /// made again, in some tens of milliseconds, when it is asked about once more. By the thread that works on it.
    /// </summary>
    /// <param name="shown">The turn that is shown now; what it shares with this one stays.</param>
    public void Rest(Turn? shown)
    {
        ImmutableArray<Arrangement> awake = shown is null ? [] : [shown.Break, shown.Arrangement];
        Break.Rest(awake);
        Arrangement.Rest(awake);
    }

    /// <summary>Whether single steps can be changed: a vamp is bass and chop throughout, and is taken as a whole.</summary>
    public bool TakesChanges => Wishes.Instead is not BehindSomeone { Kind: BackupKind.Vamp };
}

/// <summary>The turns since the tune was put on the bench. Breaks are values, so going back is looking at an earlier one.</summary>
/// <param name="All">The oldest first; at least one.</param>
/// <param name="At">Index of the one that is shown.</param>
public sealed record Turns(ImmutableList<Turn> All, int At)
{
    private const int Most = 100;

    public static Turns Start(Turn first) => new([first], 0);

    public Turn Now => All[At];

    public bool HasBefore => At > 0;

    public bool HasAfter => At + 1 < All.Count;

    /// <summary>What was gone back from is left behind by a new turn.</summary>
    public Turns With(Turn turn)
    {
        var kept = All.RemoveRange(At + 1, All.Count - At - 1).Add(turn);
        if (kept.Count > Most)
            kept = kept.RemoveAt(0);
        return new(kept, kept.Count - 1);
    }

    /// <summary>With an older turn in front, which is shown.</summary>
    public Turns Behind(Turn older) => new(All.Insert(0, older), 0);

    public Turns Go(int to) => this with { At = Math.Clamp(to, 0, All.Count - 1) };
}
