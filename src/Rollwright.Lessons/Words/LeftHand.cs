using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>
/// Follows the left hand through bars that are played one after another: what comes down, moves, stays, lets go. A finger
/// stays until its string sounds lower, or it is needed elsewhere, or the hand cannot reach both; whatever it does is told.
/// </summary>
/// <param name="played">The break.</param>
/// <param name="before">Fingers that lie down from before the first bar, since a slur starts from them: that they stay is told.</param>
/// <param name="down">Others that lie down from before it.</param>
internal sealed class LeftHand(
    Break played,
    ImmutableArray<FingerPlace> before = default,
    ImmutableArray<FingerPlace> down = default
)
{
    private readonly ShapeNames shapes = new(played);
    private readonly ChordsInForce chords = played.ChordsInForce;
    private readonly HashSet<FingerPlace> held = [.. before.IsDefault ? [] : before, .. down.IsDefault ? [] : down];
    private ImmutableArray<FingerPlace> first = before.IsDefault ? [] : before;

    /// <summary>The fingers that are down after the bars so far, from string 1 on.</summary>
    public ImmutableArray<FingerPlace> Held => [.. held.OrderBy(place => place.String).ThenBy(place => place.Fret)];

    /// <summary>What is done in the next bar, in order of time.</summary>
    /// <param name="bar">Index of the written bar.</param>
    public ImmutableArray<LeftMotion> Next(int bar)
    {
        // What a slur over the bar line starts from is said where the phrase begins.
        var motions = first.Select(place => new LeftMotion(LeftMotionKind.Keep, Fraction.Zero, [place])).ToList();
        first = [];
        var fromBefore = held.ToHashSet();
        var strokes = played.Bars[bar].Strokes;
        for (var i = 0; i < strokes.Length; i++)
        {
            var (stroke, place) = (strokes[i], PlaceOf(strokes[i]));
            if (stroke.Slur is SlurKind.PullOff or SlurKind.Slide)
                Keep(motions, fromBefore, held.Where(other => other.String == place.String).ToList());
            if (
                stroke.Slur == SlurKind.PullOff
                || (stroke.Slur is SlurKind.Slide or SlurKind.HammerOn && stroke.Fret > 0)
            )
                Slur(motions, stroke, place);
            else if (stroke.Fret == 0)
                Lift(motions, stroke.At, held.Where(other => other.String == place.String));
            else
                Down(motions, bar, i);
            Keep(motions, fromBefore, [place]);
            if (BehindIt(strokes, i) is { } next && GoTogether(place, next))
                Put(motions, stroke.At, [next], LeftMotionKind.Behind);
        }
        return [.. motions];
    }

    // What lay there before the bar and is needed on is told first, once.
    private void Keep(List<LeftMotion> motions, HashSet<FingerPlace> fromBefore, List<FingerPlace> needed)
    {
        foreach (var place in needed.Where(place => fromBefore.Remove(place) && held.Contains(place)))
        {
            if (!motions.Exists(motion => motion.Places.Contains(place)))
                motions.Insert(0, new(LeftMotionKind.Keep, Fraction.Zero, [place]));
        }
    }

    /// <summary>Frees the hand after a bar: the phrase that comes next, whichever, begins without a finger down.</summary>
    /// <param name="bar">Index of the written bar.</param>
    /// <param name="kept">Fingers from which a slur over the bar line starts.</param>
    public ImmutableArray<LeftMotion> End(int bar, ImmutableArray<FingerPlace> kept)
    {
        ImmutableArray<FingerPlace> leaving = [.. Held.Where(place => !kept.Contains(place))];
        held.ExceptWith(leaving);
        return leaving.IsEmpty
            ? []
            :
            [
                new(LeftMotionKind.Free, played.Bars[bar].Length, leaving)
                {
                    IsAll = held.Count == 0 && leaving.Length > 1,
                },
            ];
    }

    private void Down(List<LeftMotion> motions, int bar, int index)
    {
        var strokes = played.Bars[bar].Strokes;
        var (at, first) = (strokes[index].At, PlaceOf(strokes[index]));
        // The same finger need not be lifted first: it moves.
        Lift(
            motions,
            at,
            held.Where(other => other.String == first.String && other.Fret > first.Fret && !IsSameFinger(other, first)),
            othersStay: held.Any(other => IsSameFinger(other, first))
        );
        if (held.Contains(first))
            return;
        List<FingerPlace> together = [first];
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
        var shape = together.Count < 2 ? null : shapes.Find(together, chords.At(bar, at));
        Put(motions, at, shape is null ? [first] : [.. together], LeftMotionKind.Down, shape);
    }

    private void Slur(List<LeftMotion> motions, Stroke stroke, FingerPlace place)
    {
        List<FingerPlace> above = [.. held.Where(other => other.String == place.String && other.Fret > place.Fret)];
        if (stroke.Slur == SlurKind.PullOff)
        {
            if (place.Fret > 0)
                Put(motions, stroke.At, [place], LeftMotionKind.Behind);
            above.RemoveAll(other => !held.Contains(other));
            held.ExceptWith(above);
            if (above.Count > 0)
                motions.Add(new(LeftMotionKind.PullOff, stroke.At, [above.MaxBy(other => other.Fret)]));
            Lift(motions, stroke.At, above.OrderBy(other => other.Fret).SkipLast(1), othersStay: true);
            return;
        }
        if (held.Contains(place))
            return;
        var slides =
            stroke.Slur == SlurKind.Slide
            && held.Any(other => other.String == place.String && other.Finger == place.Finger);
        held.RemoveWhere(other => slides && other.String == place.String && other.Finger == place.Finger);
        Lift(
            motions,
            stroke.At,
            held.Where(other =>
                !GoTogether(other, place) || (other.String == place.String && other.Fret >= place.Fret)
            ),
            othersStay: slides
        );
        held.Add(place);
        motions.Add(
            new(stroke.Slur == SlurKind.Slide ? LeftMotionKind.Slide : LeftMotionKind.HammerOn, stroke.At, [place])
        );
    }

    // Those that cannot stay beside the new fingers leave first; a finger that lies elsewhere moves.
    private void Put(
        List<LeftMotion> motions,
        Fraction at,
        ImmutableArray<FingerPlace> places,
        LeftMotionKind kind,
        NamedShape? shape = null
    )
    {
        places = shape is null ? [.. places.Where(place => !held.Contains(place))] : places;
        if (places.IsEmpty)
            return;
        var moving = held.Where(other => !places.Contains(other) && places.Any(place => IsSameFinger(other, place)))
            .ToList();
        held.ExceptWith(moving);
        Lift(
            motions,
            at,
            held.Where(other =>
                places.Any(place =>
                    place != other
                    && (
                        !GoTogether(other, place)
                        || (
                            other.String == place.String
                            && (other.Fret == place.Fret || (kind == LeftMotionKind.Down && other.Fret > place.Fret))
                        )
                    )
                )
            ),
            othersStay: moving.Count > 0
        );
        var from = shape is null && moving.Count > 0 ? moving[0] : (FingerPlace?)null;
        motions.Add(
            new(kind, at, places, shape, from) { IsMove = moving.Count > 0, Beside = [.. places.Where(held.Contains)] }
        );
        held.UnionWith(places);
    }

    private void Lift(List<LeftMotion> motions, Fraction at, IEnumerable<FingerPlace> leaving, bool othersStay = false)
    {
        ImmutableArray<FingerPlace> places = [.. leaving.OrderBy(place => place.String).ThenBy(place => place.Fret)];
        held.ExceptWith(places);
        var isAll = !othersStay && held.Count == 0 && places.Length > 1;
        foreach (var place in places)
            motions.Add(new(LeftMotionKind.Lift, at, [place]) { IsAll = isAll });
    }

    // The index finger lies over several strings at one fret, others move; of fingers that nobody names none is the same.
    private static bool IsSameFinger(FingerPlace one, FingerPlace other) =>
        one.Finger is not null && one.Finger == other.Finger && !GoTogether(one, other);

    private static bool GoTogether(FingerPlace one, FingerPlace other)
    {
        if (one.Finger is not { } left || other.Finger is not { } right)
            return false;
        // The thumb is a hand of its own.
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

    private static FingerPlace PlaceOf(Stroke stroke) => new(stroke.String, stroke.Fret, stroke.Left);
}
