using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>Says what the left hand does in a bar.</summary>
internal static class LeftHandWords
{
    /// <summary>"Put down the C shape: index finger on string 2, fret 1, and …, for 1; lift the index finger for 2."</summary>
    public static (string Short, string Long) Of(ImmutableArray<LeftMotion> motions, Func<Fraction, string> count)
    {
        if (motions.IsEmpty)
            return ("", "");
        return (
            $"Left: {string.Join("; ", motions.Select(motion => Short(motion, count(motion.At))))}.",
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
            LeftMotionKind.Down when motion.Shape is { } shape =>
                $"put down {Named(shape)} for {at}, {Counting.Listed([.. motion.Places.Select(Place)])}",
            LeftMotionKind.Down => $"put {ThePlace(motion.Places[0])}, for {at}",
            LeftMotionKind.Behind => $"have {ThePlace(motion.Places[0])} behind it, for {at}",
            LeftMotionKind.Keep => $"keep {ThePlace(motion.Places[0])}",
            _ =>
                $"lift {Fingers(motion)} {(motion.IsAgain ? "again " : "")}from string {motion.Places[0].String} for {at}",
        };

    private static string Short(LeftMotion motion, string at) =>
        motion.Kind switch
        {
            LeftMotionKind.Down when motion.Shape is { IsWhole: true } shape => $"{shape.Name} for {at}",
            LeftMotionKind.Down when motion.Shape is { } shape =>
                $"{shape.Name}, only {Counting.Listed([.. motion.Places.Select(ShortPlace)])}, for {at}",
            LeftMotionKind.Down => $"{ShortPlace(motion.Places[0])} for {at}",
            LeftMotionKind.Behind => $"{ShortPlace(motion.Places[0])} behind it",
            LeftMotionKind.Keep => $"keep {ShortPlace(motion.Places[0])}",
            _ => $"lift {Fingers(motion)} for {at}",
        };

    private static string Fingers(LeftMotion motion) =>
        Counting.Listed([.. motion.Places.Select(place => HandNames.TheLeft(place.Finger))]);

    private static string Named(NamedShape shape) =>
        shape.IsWhole ? $"the {shape.Name}" : $"what you need of the {shape.Name}";

    private static string Place(FingerPlace place) =>
        $"{HandNames.OfLeft(place.Finger)} on string {place.String} at fret {place.Fret}";

    private static string ThePlace(FingerPlace place) =>
        $"{HandNames.TheLeft(place.Finger)} on string {place.String} at fret {place.Fret}";

    private static string ShortPlace(FingerPlace place) =>
        $"{HandNames.OfLeft(place.Finger)} on {place.String} at {place.Fret}";
}
