using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>Says what the left hand does in a bar, but for slurs: those are notes, and said among them.</summary>
internal static class LeftHandWords
{
    /// <summary>"put the ring finger on string 1 at fret 2 by 1; lift it before 1-and"; "nothing new".</summary>
    /// <param name="motions">What it does in one breath: a half bar, or a bar.</param>
    /// <param name="count">Says a time as people count it.</param>
    public static (string Short, string Long) Of(ImmutableArray<LeftMotion> motions, Func<Fraction, string> count)
    {
        var moves = Moves([.. motions.Where(motion => !motion.IsSlur)]);
        if (moves.Count == 0)
            return ("nothing new", "nothing new");
        return (Said(Short), Said(Long));

        string Said(Func<Move, string, string> say) =>
            string.Join("; ", moves.Select(move => say(move, count(move.First.At))));
    }

    /// <summary>What is said as one: fingers that come down, stay or leave together.</summary>
    /// <param name="Motions">At least one.</param>
    /// <param name="IsIt">Whether the one finger is the one just spoken of, on the string just spoken of.</param>
    private sealed record Move(ImmutableArray<LeftMotion> Motions, bool IsIt)
    {
        public LeftMotion First => Motions[0];
    }

    private static List<Move> Moves(ImmutableArray<LeftMotion> motions)
    {
        var moves = new List<Move>();
        foreach (var motion in motions)
        {
            if (moves.Count > 0 && AreTogether(moves[^1].First, motion))
                moves[^1] = new(moves[^1].Motions.Add(motion), false);
            else
                moves.Add(new([motion], moves.Count > 0 && IsOfSame(moves[^1], motion)));
        }
        return moves;
    }

    private static bool AreTogether(LeftMotion one, LeftMotion other) =>
        one.Kind == other.Kind
        && one.Kind is LeftMotionKind.Down or LeftMotionKind.Keep or LeftMotionKind.Lift
        && one.At == other.At
        && one.IsAll == other.IsAll
        && one is { Shape: null, From: null }
        && other is { Shape: null, From: null };

    private static bool IsOfSame(Move before, LeftMotion motion) =>
        before is { Motions: [{ Places: [var last] }] }
        && motion is { Places: [var place], Shape: null, Kind: not LeftMotionKind.Behind }
        && !motion.IsAll
        && place.Finger is not null
        && place.Finger == last.Finger
        // The index finger may lie over several strings: from which it goes is said.
        && !(place.Finger == 1 && motion.Kind == LeftMotionKind.Lift)
        // Only what comes down names its string; of the others it has to be the one just named, where it was named.
        && (
            motion.From is { } from
                ? from == last
                : motion.Kind == LeftMotionKind.Down || (before.First.Kind != LeftMotionKind.Lift && place == last)
        );

    /// <summary>"C shape." "Ring finger on 1 at 2." Empty where nothing comes down.</summary>
    public static string Brief(ImmutableArray<LeftMotion> motions)
    {
        var down = motions
            .Where(motion => motion.Kind == LeftMotionKind.Down)
            .Select(motion => motion.Shape?.Name ?? ShortPlace(motion.Places[0]))
            .Distinct();
        return string.Join(", ", down) is { Length: > 0 } words
            ? $"{char.ToUpperInvariant(words[0])}{words[1..]}."
            : "";
    }

    private static string Long(Move move, string at)
    {
        var (motion, places) = (move.First, move.Motions.SelectMany(one => one.Places).ToList());
        var place = places[0];
        var it = move.IsIt ? "it" : HandNames.TheLeft(place.Finger);
        var all = move.IsIt
            ? $"it on string {place.String} at fret {place.Fret}"
            : Counting.Listed([.. places.Select(ThePlace)]);
        return motion.Kind switch
        {
            LeftMotionKind.Down or LeftMotionKind.Behind when motion.From is { } from =>
                $"move {it} {Way(from, place, move.IsIt)} by {at}",
            LeftMotionKind.Down when motion.Shape is { } shape =>
                $"{(motion.IsMove ? "go to" : "put down")} {Named(shape)} by {at}, {Counting.Listed([.. places.Except(motion.Beside).Select(Place)])}{Beside(motion)}",
            LeftMotionKind.Down => $"put {all} by {at}",
            LeftMotionKind.Behind => $"have {all} behind it by {at}",
            LeftMotionKind.Keep => $"keep {all}",
            LeftMotionKind.Free => $"lift {(move.IsIt ? it : Fingers(motion))} at the end{MayStay(motion)}",
            _ when move.IsIt => $"lift it before {at}",
            _ when motion.IsAll => $"lift {All(places)} before {at}",
            _ =>
                $"lift {Counting.Listed([.. places.Select(one => $"{HandNames.TheLeft(one.Finger)} from string {one.String}")])} before {at}",
        };
    }

    private static string Short(Move move, string at) =>
        move.First is { Kind: LeftMotionKind.Lift, IsAll: true }
            ? $"lift {All([.. move.Motions.SelectMany(one => one.Places)])} before {at}"
            : string.Join(", ", move.Motions.Select(motion => Short(motion, at)));

    private static string Short(LeftMotion motion, string at) =>
        motion.Kind switch
        {
            LeftMotionKind.Down when motion.Shape is { IsWhole: true } shape => $"{shape.Name} by {at}",
            LeftMotionKind.Down when motion.Shape is { } shape =>
                $"{shape.Name}, only {Counting.Listed([.. motion.Places.Select(ShortPlace)])}, by {at}",
            LeftMotionKind.Down or LeftMotionKind.Behind when motion.From is not null =>
                $"move {ShortPlace(motion.Places[0])} by {at}",
            LeftMotionKind.Down => $"{ShortPlace(motion.Places[0])} by {at}",
            LeftMotionKind.Behind => $"{ShortPlace(motion.Places[0])} behind it",
            LeftMotionKind.Keep => $"keep {ShortPlace(motion.Places[0])}",
            LeftMotionKind.Free => $"lift {Fingers(motion)} after it",
            _ => $"lift {Fingers(motion)} before {at}",
        };

    // "on string 3 up to fret 3", "from string 2 to string 1 at fret 3"; without where it was where that has just been said.
    private static string Way(FingerPlace from, FingerPlace to, bool isSaid) =>
        from.String == to.String
            ? $"{(isSaid ? "" : $"on string {to.String} ")}{(to.Fret > from.Fret ? "up" : "down")} to fret {to.Fret}"
            : $"{(isSaid ? "" : $"from string {from.String} ")}to string {to.String} at fret {to.Fret}";

    private static string Fingers(LeftMotion motion) =>
        motion.IsAll
            ? All(motion.Places)
            : Counting.Listed([.. motion.Places.Select(place => HandNames.TheLeft(place.Finger)).Distinct()]);

    private static string Beside(LeftMotion motion) =>
        motion.Beside.IsEmpty
            ? ""
            : $", {Counting.Listed([.. motion.Beside.Select(place => HandNames.TheLeft(place.Finger)).Distinct()])} staying";

    private static string MayStay(LeftMotion motion)
    {
        if (motion.MayStay.IsEmpty)
            return "";
        var staying =
            motion.MayStay.Length == motion.Places.Length && motion.Places.Length > 1
                ? All(motion.MayStay)
                : Counting.Listed([.. motion.MayStay.Select(place => HandNames.TheLeft(place.Finger)).Distinct()]);
        return $"; where you play on, leave {(motion.Places.Length == 1 ? "it" : staying)} down";
    }

    // A barre is one finger on several strings.
    private static string All(IReadOnlyCollection<FingerPlace> places) =>
        places.Select(place => place.Finger ?? -place.String).Distinct().ToList() switch
        {
            [_] => HandNames.TheLeft(places.First().Finger),
            [_, _] => "both fingers",
            _ => "all fingers",
        };

    private static string Named(NamedShape shape) =>
        // Of a part of a movable shape nothing may lie at the fret that the family goes by: the fingers say where it is.
        shape.IsWhole
            ? $"the {shape.Name}"
            : $"a part of the {shape.Name.Split(" at fret ")[0]}";

    private static string Place(FingerPlace place) =>
        $"{HandNames.OfLeft(place.Finger)} on string {place.String} at fret {place.Fret}";

    private static string ThePlace(FingerPlace place) =>
        $"{HandNames.TheLeft(place.Finger)} on string {place.String} at fret {place.Fret}";

    private static string ShortPlace(FingerPlace place) =>
        $"{HandNames.OfLeft(place.Finger)} on {place.String} at {place.Fret}";
}
