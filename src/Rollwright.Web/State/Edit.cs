using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Web.State;

/// <summary>
/// A change by hand: what is to sound at a step, or in a bar. It is kept, and the rest is solved around it, so that nothing
/// comes about that hands cannot do.
/// </summary>
/// <param name="First">The first step of the grid.</param>
/// <param name="Wanted">What is asked for, one after the other.</param>
/// <param name="Words">What it is, in words: "string 3 fret 2".</param>
public sealed record Edit(int First, ImmutableArray<Lock> Wanted, string Words)
{
    /// <summary>Steps around a refused edit whose locks may be let go to make room for it: a bar of eighths.</summary>
    private const int Around = 8;

    public static Edit Of(Lock wanted)
    {
        ArgumentNullException.ThrowIfNull(wanted);
        return new(wanted.First, [wanted], wanted.Words);
    }

    /// <summary>A fret on a string; null where the string has no such fret.</summary>
    public static Edit? Fret(int step, int banjoString, int fret) =>
        Neck.HasFret(banjoString, fret) ? Of(new NoteLock(step, banjoString, fret)) : null;

    /// <summary>Which finger plucks: of the note that is kept there, or of whatever sounds.</summary>
    public static Edit Finger(Arrangement made, int step, RightFinger finger)
    {
        ArgumentNullException.ThrowIfNull(made);
        var note = made.Locks.OfType<NoteLock>().FirstOrDefault(kept => kept.Step == step);
        return note is null ? Of(new FingerLock(step, finger)) : Of(note with { Finger = finger });
    }

    /// <summary>What sounded elsewhere, from a step on; as much of it as the tune has room for.</summary>
    public static Edit Copy(Arrangement made, ImmutableArray<PathStep> copied, int first)
    {
        ArgumentNullException.ThrowIfNull(made);
        var count = Math.Min(copied.Length, made.Grid.Steps.Length - first);
        return new(
            first,
            [.. Enumerable.Range(0, count).Select(i => (Lock)new SoundLock(first + i, copied[i]))],
            $"{count} steps put in"
        );
    }

    /// <summary>The arrangement with this edit. What was asked of the same steps' sound before gives way.</summary>
    /// <exception cref="ArrangeException">Hands cannot do it with what else is kept.</exception>
    public Arrangement Make(Arrangement made)
    {
        ArgumentNullException.ThrowIfNull(made);
        var last = First + Wanted.Length - 1;
        return Replace(made, kept => SaysWhatSounds(kept) && kept.First >= First && kept.Last <= last);
    }

    /// <summary>The same after all that is kept around it was let go.</summary>
    /// <exception cref="ArrangeException">Hands cannot do it even so.</exception>
    public Arrangement MakeWithRoom(Arrangement made)
    {
        ArgumentNullException.ThrowIfNull(made);
        return Replace(made, IsAround);
    }

    /// <summary>Whether anything is kept around it that could give way.</summary>
    public bool HasRoom(Arrangement made) => made.Locks.Any(IsAround);

    private bool IsAround(Lock kept) => kept.Last >= First - Around && kept.First <= First + Wanted.Length - 1 + Around;

    private Arrangement Replace(Arrangement made, Func<Lock, bool> givesWay)
    {
        ImmutableArray<Lock> old = [.. made.Locks.Where(givesWay)];
        return (old.IsEmpty ? made : made.Without(old)).With(Wanted);
    }

    private static bool SaysWhatSounds(Lock kept) =>
        kept is SoundLock or StepLock or NoteLock or RestLock or SlurLock or PinchLock or FingerLock;
}
