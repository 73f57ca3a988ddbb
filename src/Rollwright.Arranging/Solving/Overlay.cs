using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Solving;

/// <summary>
/// What is laid over the lattice for one solution: locks, and prices on doing at a step what was done there or at its
/// equal elsewhere (less for consistency, more for another version).
/// </summary>
public sealed class Overlay
{
    private readonly List<Lock>?[] locks;
    private readonly List<Likeness>?[] likenesses;

    public Overlay(int steps)
    {
        locks = new List<Lock>?[steps];
        likenesses = new List<Likeness>?[steps];
    }

    private Overlay(Overlay other)
    {
        locks = [.. other.locks.Select(list => list?.ToList())];
        likenesses = [.. other.likenesses.Select(list => list?.ToList())];
        SeamTargets = new(other.SeamTargets);
    }

    /// <summary>A price on sounding like something.</summary>
    /// <param name="Model">What was done.</param>
    /// <param name="Term">Consistency or Repeated.</param>
    /// <param name="Price">Added where the step sounds like it; taken off where negative.</param>
    public readonly record struct Likeness(PathStep Model, Term Term, int Price);

    /// <summary>Bars at whose first step play also arrives from elsewhere.</summary>
    public Dictionary<int, PathStep> SeamTargets { get; } = [];

    public IReadOnlyList<Lock> LocksAt(int step) => locks[step] ?? (IReadOnlyList<Lock>)[];

    public IReadOnlyList<Likeness> LikenessesAt(int step) => likenesses[step] ?? (IReadOnlyList<Likeness>)[];

    public void Add(Lock kept)
    {
        for (var step = kept.First; step <= kept.Last; step++)
            (locks[step] ??= []).Add(kept);
    }

    public void Remove(Lock kept)
    {
        for (var step = kept.First; step <= kept.Last; step++)
            locks[step]?.Remove(kept);
    }

    public void Like(int step, Likeness likeness) => (likenesses[step] ??= []).Add(likeness);

    public Overlay Copy() => new(this);

    /// <summary>Whether the locks let a step be done so.</summary>
    public bool Allows(int step, PathStep done)
    {
        if (locks[step] is { } all)
        {
            foreach (var kept in all)
            {
                if (!kept.Allows(step, done))
                    return false;
            }
        }
        return true;
    }

    /// <summary>Whether the locks let a lick stand where it does.</summary>
    public bool Allows(LickPlace place)
    {
        for (var step = place.Step; step <= place.LastStep; step++)
        {
            foreach (var kept in LocksAt(step))
            {
                if (!kept.Allows(place))
                    return false;
            }
        }
        return true;
    }

    /// <summary>What the likenesses of a step add for doing it so.</summary>
    public void Price<T>(ref T tally, int step, PathStep done)
        where T : struct, ITally
    {
        if (likenesses[step] is not { } all)
            return;
        foreach (var likeness in all)
        {
            if (done.SoundsLike(likeness.Model))
                tally.Add(likeness.Term, likeness.Price);
        }
    }
}
