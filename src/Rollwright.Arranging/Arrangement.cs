using System.Collections.Immutable;
using Rollwright.Arranging.Advice;
using Rollwright.Arranging.Assembling;
using Rollwright.Arranging.Backup;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Reasons;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Spots;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Variations;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Licks;
using Rollwright.Music.Tunes;
using Lock = Rollwright.Arranging.Locks.Lock;
using Version = Rollwright.Arranging.Variations.Version;

namespace Rollwright.Arranging;

/// <summary>A break, how it came about, and what can be asked of it: reasons, spots, changes.</summary>
/// <remarks>A value; what it answers is worked out when first asked for, by one thread at a time.</remarks>
public sealed class Arrangement
{
    /// <summary>How much dearer a lick may make the break and still count as fitting (assumption): about a note of the tune on a beat and one between.</summary>
    public const int UsualSpotPrice = 3000;

    private readonly Tempo tempo;

    // What made it, apart from the player's locks: a vamp's own locks, a version's price on likeness.
    private readonly Overlay foundation;

    // What the tables of the solver are made of again, after a rest.
    private readonly StepLattice lattice;
    private readonly Overlay overlay;
    private readonly Solution best;
    private Solver? solver;
    private ImmutableArray<StepReason>? reasons;
    private ImmutableArray<LickFit>? fits;
    private ImmutableArray<Lick> offered = [];

    internal Arrangement(
        Tune tune,
        Tempo tempo,
        Solver solver,
        ImmutableArray<SettingOffer> settings,
        bool chordsAdded,
        ImmutableArray<Lock> locks,
        Overlay? foundation = null
    )
    {
        this.foundation = foundation ?? new(solver.Lattice.Grid.Steps.Length);
        this.tempo = tempo;
        Tune = tune;
        this.solver = solver;
        (lattice, overlay, best) = (solver.Lattice, solver.Overlay, solver.Best);
        Settings = settings;
        ChordsAdded = chordsAdded;
        Locks = locks;
        Break = BreakAssembly.Assemble(tune, lattice, best, tempo);
    }

    public Break Break { get; }

    /// <summary>The tune with chords, at its own pitch.</summary>
    public Tune Tune { get; }

    /// <summary>What the path costs, thousandths of a plain melody note left out; comparable within one tune, style and level.</summary>
    public int Cost => best.Total;

    /// <summary>The settings that suit the tune; the first is the break's, the next ones were solved too or look good.</summary>
    public ImmutableArray<SettingOffer> Settings { get; }

    /// <summary>The tune had no chords and was given some.</summary>
    public bool ChordsAdded { get; }

    /// <summary>What the player will not have changed.</summary>
    public ImmutableArray<Lock> Locks { get; }

    public Style Style => lattice.Style;

    /// <summary>The steps that locks, reasons and spots speak of.</summary>
    public StepGrid Grid => lattice.Grid;

    /// <summary>Why each step is as it is, and what the next best would cost.</summary>
    public ImmutableArray<StepReason> Reasons => reasons ??= ReasonFinder.Of(Solver);

    /// <summary>What the break costs by term, dearest first.</summary>
    public ImmutableArray<(Term Term, int Price)> Terms => ReasonFinder.Table(Solver, Reasons);

    /// <summary>Share of the tune that is played, 0 to 1: its notes at their time, weighed by length and place in the metre.</summary>
    public double Kept => Advice.Kept.Share(lattice, best);

    /// <summary>What the hands do at a step of the grid.</summary>
    public PathStep PathAt(int step) => best.Path[step];

    /// <summary>The licks that could stand from a step on, by chord, tuning, level and length.</summary>
    public ImmutableArray<LickPlace> LicksAt(int step) => [.. lattice.Licks[step]];

    /// <summary>Whether a lick stands in the break, where it does.</summary>
    public bool Has(LickPlace place) => best.Licks.Contains(place);

    internal Solver Solver => solver ??= Solver.Open(lattice, overlay);

    /// <summary>
    /// Lets go of the tables and prices, some megabytes, that only questions and changes need; they are made again when the next one
    /// comes. The break, its path and its locks stay. By the thread that it serves.
    /// </summary>
    /// <param name="awake">Those that are in use: what they share with this one stays, and one of them does not rest.</param>
    public void Rest(params ImmutableArray<Arrangement> awake)
    {
        if (awake.Contains(this))
            return;
        (solver, reasons) = (null, null);
        if (awake.All(other => other.lattice != lattice))
            lattice.Rest();
    }

    /// <summary>Where licks fit, and which.</summary>
    /// <param name="within">How much dearer the break may get, thousandths of a plain melody note left out.</param>
    /// <param name="wanted">Which licks are of interest; null for all.</param>
    public ImmutableArray<Spot> Spots(int within = UsualSpotPrice, Predicate<Lick>? wanted = null) =>
        SpotFinder.Of(Grid, fits ??= SpotFinder.Fits(Solver), within, wanted);

    /// <summary>
    /// The same break with these licks offered besides, in place of those offered before: they are among its spots, and played
    /// only where someone puts them in. Nothing is solved again.
    /// </summary>
    public Arrangement Offering(ImmutableArray<Lick> more) =>
        offered.AsSpan().SequenceEqual(more.AsSpan())
            ? this
            : new(Tune, tempo, Solver.Offering(Solver.Lattice.Offering(more)), Settings, ChordsAdded, Locks, foundation)
            {
                offered = more,
            };

    /// <summary>The best break that keeps to these locks besides those there are; everything else is solved again.</summary>
    /// <exception cref="ArrangeException">The locks contradict each other or the hands; the message says which.</exception>
    public Arrangement With(params ImmutableArray<Lock> added)
    {
        if (added.IsEmpty)
            return this;
        return Again(added, Locks.AddRange(added));
    }

    /// <summary>The best break without some of the locks.</summary>
    public Arrangement Without(params ImmutableArray<Lock> taken) =>
        taken.IsEmpty ? this : Again(taken, Locks.RemoveRange(taken));

    /// <summary>Other versions of the break, each different from all before it.</summary>
    /// <param name="version">What kind.</param>
    /// <param name="count">How many; 1 or more.</param>
    /// <param name="differs">Share of the steps that must sound otherwise, 0 to 1; null for the version's own.</param>
    /// <returns>Each with the least share of its steps that sounds otherwise than a version before.</returns>
    public ImmutableArray<(Arrangement Made, double Share)> Versions(Version version, int count, double? differs = null)
    {
        var solvers = ImmutableArray.Create(Solver);
        var made = ImmutableArray.CreateBuilder<(Arrangement, double)>(count);
        for (var i = 0; i < count; i++)
        {
            var (solver, own, share) = VersionMaker.Make(this, version, solvers, differs);
            solvers = solvers.Add(solver);
            made.Add((new(Tune, tempo, solver, Settings, ChordsAdded, Locks, own) { offered = offered }, share));
        }
        return made.ToImmutable();
    }

    /// <summary>Share of the steps, 0 to 1, that sound otherwise in another arrangement of the same tune and setting.</summary>
    public double ShareOtherwise(Arrangement other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return VersionMaker.ShareOtherwise(Solver.Best, other.Solver.Best);
    }

    /// <summary>A part to play behind someone else who plays the tune, in the break's setting.</summary>
    /// <exception cref="ArrangeException">The tune's chords cannot be held as asked.</exception>
    public Arrangement BackupPart(BackupKind kind, int level)
    {
        var (line, solver, own) = BackupMaker.Make(Tune, Break.Setting, kind, LevelTable.Of(level));
        return solver.Best.IsPossible
            ? new(line, tempo, solver, Settings, ChordsAdded, [], own)
            : throw new ArrangeException(
                $"The chords of '{Tune.Title}' cannot be held as a vamp at level {level}; choose a higher level, or rolls."
            );
    }

    /// <summary>The best break that keeps to as many of these locks as go together, those first that stand first.</summary>
    public (Arrangement Made, ImmutableArray<Lock> LeftOut) WithWhatCanBe(ImmutableArray<Lock> added)
    {
        if (added.IsEmpty)
            return (this, []);
        if (Possible(added, Locks.AddRange(added)) is { } all)
            return (all, []);
        if (added.Length == 1)
            return (this, added);
        var half = added.Length / 2;
        var (older, left) = WithWhatCanBe(added[..half]);
        var (made, more) = older.WithWhatCanBe(added[half..]);
        return (made, left.AddRange(more));
    }

    private Arrangement Again(ImmutableArray<Lock> changed, ImmutableArray<Lock> locks) =>
        Possible(changed, locks) ?? throw new ArrangeException(Conflict.Words(Solver.Lattice, foundation, locks));

    private Arrangement? Possible(ImmutableArray<Lock> changed, ImmutableArray<Lock> locks)
    {
        var solver = changed.Any(TouchesSeam)
            ? TuneSolver.Solve(Solver.Lattice, foundation, locks)
            : Solver.Again(OverlayOf(locks), changed.Min(kept => kept.First), changed.Max(kept => kept.Last));
        // A lock at the end of a repeat may need another beginning to jump to than the one that was settled.
        if (!solver.Best.IsPossible)
            solver = TuneSolver.Solve(Solver.Lattice, foundation, locks);
        return solver.Best.IsPossible
            ? new(Tune, tempo, solver, Settings, ChordsAdded, locks, foundation) { offered = offered }
            : null;
    }

    // The steps that repeats jump to were settled before the locks came; those are settled anew.
    private bool TouchesSeam(Lock kept) =>
        Grid.Tree.Seams.Any(seam => kept.First <= Grid.FirstOf(seam.To) && Grid.FirstOf(seam.To) <= kept.Last);

    private Overlay OverlayOf(ImmutableArray<Lock> locks)
    {
        var overlay = Solver.Overlay.Copy();
        foreach (var kept in Locks)
            overlay.Remove(kept);
        foreach (var kept in locks)
            overlay.Add(kept);
        return overlay;
    }
}
