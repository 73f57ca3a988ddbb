using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>Says what the left hand does in a bar.</summary>
internal static class LeftHandWords
{
    /// <summary>"Put down the C shape by 1: index finger on string 2, fret 1, and …; lift the index finger before 2."</summary>
    public static (string Short, string Long) Of(ImmutableArray<LeftMotion> motions, Func<Fraction, string> count)
    {
        if (motions.IsEmpty)
            return ("Left: nothing new.", "Left hand: nothing new.");
        // What slurs do, the short form says among the notes alone.
        var brief = string.Join(
            "; ",
            motions.Where(motion => !motion.IsSlur).Select(motion => Short(motion, count(motion.At)))
        );
        return (
            brief.Length > 0 ? $"Left: {brief}." : "",
            $"Left hand: {string.Join("; ", motions.Select(motion => Long(motion, count(motion.At))))}."
        );
    }

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

    private static string Long(LeftMotion motion, string at) =>
        motion.Kind switch
        {
            LeftMotionKind.Down or LeftMotionKind.Behind when motion.From is { } from =>
                $"move {HandNames.TheLeft(from.Finger)} {Way(from, motion.Places[0])} by {at}",
            LeftMotionKind.Down when motion.Shape is { } shape =>
                $"{(motion.IsMove ? "go to" : "put down")} {Named(shape)} by {at}, {Counting.Listed([.. motion.Places.Select(Place)])}",
            LeftMotionKind.Down => $"put {ThePlace(motion.Places[0])} by {at}",
            LeftMotionKind.Behind => $"have {ThePlace(motion.Places[0])} behind it by {at}",
            LeftMotionKind.Keep => $"keep {ThePlace(motion.Places[0])}",
            LeftMotionKind.HammerOn =>
                $"hammer {HandNames.TheLeft(motion.Places[0].Finger)} onto string {motion.Places[0].String} at fret {motion.Places[0].Fret} on {at}",
            LeftMotionKind.PullOff =>
                $"pull off with {HandNames.TheLeft(motion.Places[0].Finger)} from string {motion.Places[0].String} on {at}",
            LeftMotionKind.Slide =>
                $"slide {HandNames.TheLeft(motion.Places[0].Finger)} on string {motion.Places[0].String} to fret {motion.Places[0].Fret} on {at}",
            LeftMotionKind.Free => $"lift {Fingers(motion)} when the phrase is over",
            _ => $"lift {Fingers(motion)} from string {motion.Places[0].String} before {at}",
        };

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

    // "up to fret 3", "over to string 1 at fret 3".
    private static string Way(FingerPlace from, FingerPlace to) =>
        from.String == to.String
            ? $"on string {to.String} {(to.Fret > from.Fret ? "up" : "down")} to fret {to.Fret}"
            : $"from string {from.String} to string {to.String} at fret {to.Fret}";

    private static string Fingers(LeftMotion motion) =>
        motion.IsAll
            ? "all fingers"
            : Counting.Listed([.. motion.Places.Select(place => HandNames.TheLeft(place.Finger)).Distinct()]);

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
