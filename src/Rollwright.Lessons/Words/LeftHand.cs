using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>
/// Follows the left hand through bars that are played one after another: what comes down, what stays, what lets go. A finger
/// stays until its string sounds otherwise, or it is needed elsewhere, or the hand cannot reach both.
/// </summary>
/// <param name="played">The break.</param>
internal sealed class LeftHand(Break played)
{
    private readonly ShapeNames shapes = new(played);
    private readonly Dictionary<int, FingerPlace> held = [];

    // Where a finger was hammered down above another, the other.
    private readonly Dictionary<int, FingerPlace> behind = [];

    /// <summary>The fingers that are down after the bars so far, from string 1 on.</summary>
    public ImmutableArray<FingerPlace> Held => [.. held.Values.OrderBy(place => place.String)];

    /// <summary>What is done in the next bar, in order of time.</summary>
    /// <param name="bar">Index of the written bar.</param>
    public ImmutableArray<LeftMotion> Next(int bar)
    {
        var motions = new List<LeftMotion>();
        var fromBefore = held.Values.ToHashSet();
        var strokes = played.Bars[bar].Strokes;
        for (var i = 0; i < strokes.Length; i++)
        {
            var stroke = strokes[i];
            if (stroke.Fret == 0)
            {
                if (held.Remove(stroke.String, out var lifted) && stroke.Slur != SlurKind.PullOff)
                {
                    ImmutableArray<FingerPlace> leaving = behind.TryGetValue(stroke.String, out var other)
                        ? [lifted, other]
                        : [lifted];
                    motions.Add(new(LeftMotionKind.Lift, stroke.At, leaving, null, !fromBefore.Contains(lifted)));
                }
                behind.Remove(stroke.String);
                continue;
            }
            var place = PlaceOf(stroke);
            if (held.TryGetValue(stroke.String, out var there) && there == place)
            {
                if (fromBefore.Contains(place) && !motions.Exists(motion => motion.Places.Contains(place)))
                    motions.Add(new(LeftMotionKind.Keep, stroke.At, [place]));
            }
            else if (stroke.Slur is not null)
                Slur(stroke.Slur.Value, place);
            else
                motions.Add(Down(bar, i));
            if (BehindIt(strokes, i) is { } next && !IsThere(motions, next))
                motions.Add(new(LeftMotionKind.Behind, stroke.At, [next]));
        }
        // What stays is told first.
        return [.. motions.OrderBy(motion => motion.Kind != LeftMotionKind.Keep)];
    }

    private LeftMotion Down(int bar, int index)
    {
        var strokes = played.Bars[bar].Strokes;
        var at = strokes[index].At;
        List<FingerPlace> together = [PlaceOf(strokes[index])];
        var open = new HashSet<int>();
        for (var i = index + 1; i < strokes.Length; i++)
        {
            var (place, isDown) = (PlaceOf(strokes[i]), together.Exists(one => one.String == strokes[i].String));
            if (isDown ? !together.Contains(place) : strokes[i].Slur is not null)
                break;
            if (place.Fret == 0)
                open.Add(place.String);
            if (isDown || place.Fret == 0)
                continue;
            if (open.Contains(place.String) || !together.TrueForAll(one => GoTogether(one, place)))
                break;
            together.Add(place);
        }
        var shape = together.Count < 2 ? null : shapes.Find(together, ChordAt(bar, at));
        if (shape is null)
            together = together[..1];
        foreach (var place in together)
            Put(place);
        return new(LeftMotionKind.Down, at, [.. together], shape);
    }

    private void Slur(SlurKind kind, FingerPlace place)
    {
        var isAbove = held.TryGetValue(place.String, out var before);
        Put(place);
        if (isAbove && kind == SlurKind.HammerOn && before.Finger != place.Finger)
            behind[place.String] = before;
    }

    // What cannot stay beside the new finger leaves unsaid: nobody could keep it.
    private void Put(FingerPlace place)
    {
        foreach (
            var other in held.Values.Where(other => other.String == place.String || !GoTogether(other, place)).ToList()
        )
            held.Remove(other.String);
        foreach (
            var other in behind.Where(other => other.Key == place.String || other.Value.Finger == place.Finger).ToList()
        )
            behind.Remove(other.Key);
        held[place.String] = place;
    }

    private static bool GoTogether(FingerPlace one, FingerPlace other)
    {
        if (one.Finger is not { } left || other.Finger is not { } right)
            return false;
        // The index finger lies over several strings at one fret, others move; the thumb is a hand of its own.
        if (left == right)
            return left == 1 && one.Fret == other.Fret;
        if (left == 0 || right == 0)
            return true;
        return (right - left) * (other.Fret - one.Fret) >= 0 && Reach.Between([one.Fret, other.Fret]) <= Reach.Widest;
    }

    // The fret that the string is pulled off to next, where a finger has to be.
    private static FingerPlace? BehindIt(ImmutableArray<Stroke> strokes, int index)
    {
        for (var i = index + 1; i < strokes.Length; i++)
        {
            if (strokes[i].String == strokes[index].String)
                return strokes[i] is { Slur: SlurKind.PullOff, Fret: > 0 } ? PlaceOf(strokes[i]) : null;
        }
        return null;
    }

    // Of the fingers that came to that place in the bar, the last.
    private static bool IsThere(List<LeftMotion> motions, FingerPlace place) =>
        motions
            .SelectMany(motion => motion.Places)
            .LastOrDefault(other => other.String == place.String && other.Fret == place.Fret) == place;

    private Chord? ChordAt(int bar, Fraction at)
    {
        for (var i = bar; i >= 0; i--)
        {
            foreach (var chord in played.Bars[i].Chords.Reverse())
            {
                if (i < bar || chord.At <= at)
                    return chord.Chord;
            }
        }
        return null;
    }

    private static FingerPlace PlaceOf(Stroke stroke) => new(stroke.String, stroke.Fret, stroke.Left);
}
