using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Locks;
using Rollwright.Banjo.Tunings;
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
    private readonly List<IWish>?[] wishes;

    public Overlay(int steps)
    {
        locks = new List<Lock>?[steps];
        likenesses = new List<Likeness>?[steps];
        wishes = new List<IWish>?[steps];
    }

    private Overlay(Overlay other)
    {
        locks = [.. other.locks.Select(list => list?.ToList())];
        likenesses = [.. other.likenesses.Select(list => list?.ToList())];
        wishes = [.. other.wishes.Select(list => list?.ToList())];
        SeamTargets = new(other.SeamTargets);
    }

    /// <summary>A price on sounding like something.</summary>
    /// <param name="Model">What was done.</param>
    /// <param name="Term">Consistency or Repeated.</param>
    /// <param name="Price">Added where the step sounds like it; taken off where negative.</param>
    public readonly record struct Likeness(PathStep Model, Term Term, int Price);

    /// <summary>Notes that must all sound at a step, each with a price on leaving it out.</summary>
    public sealed record Wanted(ImmutableArray<int> Keys, Tuning Tuning, int Price) : IWish
    {
        public int Missing(PathStep done)
        {
            var missing = 0;
            foreach (var key in Keys)
                missing += done.Sounds(key, Tuning) ? 0 : Price;
            return missing;
        }
    }

    /// <summary>Bars at whose first step play also arrives from elsewhere.</summary>
    public Dictionary<int, PathStep> SeamTargets { get; } = [];

    public IReadOnlyList<Lock> LocksAt(int step) => locks[step] ?? (IReadOnlyList<Lock>)[];

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

    /// <summary>Takes over the likenesses of another overlay of the same grid.</summary>
    public void LikeAs(Overlay other)
    {
        for (var step = 0; step < likenesses.Length; step++)
            likenesses[step] = other.likenesses[step]?.ToList();
    }

    public void Wish(int step, IWish wish) => (wishes[step] ??= []).Add(wish);

    public bool IsPlain(int step) =>
        locks[step] is not { Count: > 0 } && likenesses[step] is null && wishes[step] is null;

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

    /// <summary>Whether someone put this lick where it stands.</summary>
    public bool Chooses(LickPlace place) =>
        LocksAt(place.Step).Any(kept => kept is LickLock chosen && chosen.Place == place);

    /// <summary>What is taken off for doing a step like its equals; 0 or less.</summary>
    public int Consistency(int step, PathStep done)
    {
        var sum = 0;
        foreach (var likeness in likenesses[step] ?? [])
        {
            if (likeness.Term == Term.Consistency && done.SoundsLike(likeness.Model))
                sum += likeness.Price;
        }
        return sum;
    }

    /// <summary>What the likenesses of a step add for doing it so.</summary>
    public void Price<T>(ref T tally, int step, PathStep done)
        where T : struct, ITally
    {
        foreach (var wish in wishes[step] ?? [])
        {
            if (wish.Missing(done) is var missing and not 0)
                tally.Add(Term.MelodyMissed, missing);
        }
        if (likenesses[step] is not { } all)
            return;
        foreach (var likeness in all)
        {
            if (done.SoundsLike(likeness.Model))
                tally.Add(likeness.Term, likeness.Price);
        }
    }
}
