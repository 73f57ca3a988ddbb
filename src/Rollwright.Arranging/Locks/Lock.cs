using System.Collections.Immutable;
using System.Globalization;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Locks;

/// <summary>What the player will not have changed: which ways of doing a step are still allowed, from one step to another.</summary>
/// <param name="First">The first step of the grid that it holds for.</param>
/// <param name="Last">The last step, included.</param>
public abstract record Lock(int First, int Last)
{
    /// <summary>Whether a step may be done so.</summary>
    public abstract bool Allows(int step, PathStep done);

    /// <summary>Whether a lick may stand where it does.</summary>
    public virtual bool Allows(LickPlace place)
    {
        for (var step = Math.Max(First, place.Step); step <= Math.Min(Last, place.LastStep); step++)
        {
            if (!Allows(step, place.Path[step - place.Step]))
                return false;
        }
        return true;
    }

    /// <summary>What is asked, in words that follow "bar 3, beat 2: ".</summary>
    public abstract string Words { get; }
}

/// <summary>The step is done exactly so: for a span that stays as it is, one lock a step.</summary>
public sealed record StepLock(int Step, PathStep Kept) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done) =>
        done.SoundsLike(Kept) && done.Shape == Kept.Shape && done.After == Kept.After;

    public override string Words => "stays as it is";
}

/// <summary>The step sounds as it did, whatever else the hands hold.</summary>
public sealed record SoundLock(int Step, PathStep Kept) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done) => done.SoundsLike(Kept);

    public override string Words => "keeps its notes";
}

/// <summary>A note that must begin at the step, alone or with others.</summary>
/// <param name="Step">The step.</param>
/// <param name="String">1 to 5.</param>
/// <param name="Fret">Counted from the capo.</param>
/// <param name="Finger">The plucking finger; null for any, or for a slur.</param>
public sealed record NoteLock(int Step, int String, int Fret, RightFinger? Finger = null) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done)
    {
        if (done.SlurString != 0)
            return Finger is null && done.SlurString == String && done.Shape.FretOn(String) == Fret;
        foreach (var (finger, on) in done.Event.Plucks)
        {
            if (on == String && done.Shape.FretOn(on) == Fret)
                return Finger is null || Finger == finger;
        }
        return false;
    }

    public override string Words =>
        $"string {String} {(Fret == 0 ? "open" : $"fret {Fret}")}{(Finger is { } finger ? $" with {finger}" : "")}";
}

/// <summary>Nothing begins at the step.</summary>
public sealed record RestLock(int Step) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done) => done.SlurString == 0 && done.Event.IsSilent;

    public override string Words => "silence";
}

/// <summary>The note of the step is made by the left hand: a slide, a hammer-on or a pull-off leads to it or from it at once.</summary>
public sealed record SlurLock(int Step) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done) => done.SlurString != 0 || done.HalfSlur is not null;

    public override string Words => "a slur";
}

/// <summary>Several strings are struck together at the step.</summary>
public sealed record PinchLock(int Step) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done) => done.SlurString == 0 && done.Event.Plucks.Length > 1;

    public override string Words => "a pinch";
}

/// <summary>A finger of the right hand plucks at the step, alone or with others.</summary>
public sealed record FingerLock(int Step, RightFinger Finger) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done)
    {
        if (done.SlurString != 0)
            return false;
        foreach (var (finger, _) in done.Event.Plucks)
        {
            if (finger == Finger)
                return true;
        }
        return false;
    }

    public override string Words => $"{Finger} plucks";
}

/// <summary>Played in one of the ways that the style chooses from: rolls, or the tune note by note.</summary>
/// <param name="First">The first step.</param>
/// <param name="Last">The last step.</param>
/// <param name="Manner">Index of the way in <see cref="Styles.Style.Manners"/>.</param>
/// <param name="Name">Its name.</param>
public sealed record WayLock(int First, int Last, int Manner, string Name) : Lock(First, Last)
{
    public override bool Allows(int step, PathStep done) => done.Manner == Manner;

    public override string Words => $"{Name} style";
}

/// <summary>The left hand holds a shape.</summary>
/// <param name="First">The first step.</param>
/// <param name="Last">The last step.</param>
/// <param name="Frets">Of strings 4-3-2-1, as shapes are written; 0 open, null where it does not matter.</param>
public sealed record ShapeLock(int First, int Last, ImmutableArray<int?> Frets) : Lock(First, Last)
{
    public override bool Allows(int step, PathStep done) => Holds(done.Shape) && Holds(done.After);

    private bool Holds(HandShape shape)
    {
        for (var i = 0; i < 4; i++)
        {
            if (Frets[i] is { } fret && shape.FretOn(4 - i) != fret)
                return false;
        }
        return true;
    }

    public override string Words =>
        $"shape {string.Join('-', Frets.Select(fret => fret?.ToString(CultureInfo.InvariantCulture) ?? "x"))} held";
}

/// <summary>No slide, hammer-on or pull-off.</summary>
public sealed record NoSlurLock(int First, int Last) : Lock(First, Last)
{
    public override bool Allows(int step, PathStep done) => done is { SlurString: 0, HalfSlur: null };

    public override string Words => "no slur";
}

/// <summary>Only frets up to one.</summary>
public sealed record FretLock(int First, int Last, int Highest) : Lock(First, Last)
{
    public override bool Allows(int step, PathStep done) =>
        done.Shape.HighestFret <= Highest && done.After.HighestFret <= Highest;

    public override string Words => $"only frets up to {Highest}";
}

/// <summary>A lick in a spot.</summary>
public sealed record LickLock(LickPlace Place) : Lock(Place.Step, Place.LastStep)
{
    public override bool Allows(int step, PathStep done) => false;

    public override bool Allows(LickPlace place) => place == Place;

    public override string Words => $"the lick '{Place.Lick.Name}'";
}
