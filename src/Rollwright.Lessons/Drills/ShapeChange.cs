using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Lessons.Words;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Drills;

/// <summary>The left hand from one bar's fingers to the next one's, with a plain right hand that lets it be heard.</summary>
internal static class ShapeChange
{
    // Struck once a beat group; what the thumb strikes is the lowest string that is held.
    private const int Strokes = 3;

    // One finger alone is no shape.
    private const int LeastFingers = 2;

    public static Drill? Of(Break played)
    {
        var hands = Hands(played);
        var changes = hands
            .Zip(hands.Skip(1))
            .Where(pair =>
                Math.Max(pair.First.Places.Length, pair.Second.Places.Length) >= LeastFingers
                && !pair.First.Places.SequenceEqual(pair.Second.Places)
            )
            .OrderByDescending(pair => Math.Min(pair.First.Places.Length, pair.Second.Places.Length))
            .ThenByDescending(pair => pair.First.Places.Length + pair.Second.Places.Length)
            .ThenBy(pair => pair.First.Bar);
        foreach (var (one, other) in changes)
        {
            var time = played.Bars[other.Bar].Time;
            if (time.Bar < time.Step * (2 * Strokes))
                continue;
            var excerpt = Excerpt.OfStrokes(
                played,
                time,
                $"{played.Title}: the shape change alone",
                Struck(one.Places, time),
                Struck(other.Places, time)
            );
            if (Excerpt.Playable(excerpt) is { } take)
            {
                var counting = new Counting(played);
                var where =
                    one.Bar == other.Bar
                        ? $"inside {counting.NameOf(one.Bar)}"
                        : $"between {counting.NameOf(one.Bar)} and {counting.NameOf(other.Bar)}";
                return new(
                    DrillKind.ShapeChange,
                    "The shape change alone",
                    $"What the left hand does {where}: lift together what leaves and have each finger down by its count.",
                    [new("", take)]
                );
            }
        }
        return null;
    }

    // The fingers that are down together on the long strings, each time some come down.
    private static List<(int Bar, ImmutableArray<FingerPlace> Places)> Hands(Break played)
    {
        var hand = new LeftHand(played);
        var hands = new List<(int, ImmutableArray<FingerPlace>)>();
        for (var bar = 0; bar < played.Bars.Length; bar++)
        {
            if (hand.Next(bar).Any(motion => motion.Kind == LeftMotionKind.Down))
                hands.Add((bar, hand.Held));
        }
        return [.. hands.Where(one => !one.Item2.IsEmpty)];
    }

    private static ImmutableArray<Stroke> Struck(ImmutableArray<FingerPlace> places, TimeSignature time)
    {
        var thumb = places.Any(place => place.String == 4) ? 4 : 3;
        return
        [
            Pluck(thumb, RightFinger.T, Fraction.Zero),
            Pluck(2, RightFinger.I, time.Step * 2),
            Pluck(1, RightFinger.M, time.Step * 4),
        ];

        Stroke Pluck(int banjoString, RightFinger finger, Fraction at)
        {
            var held = places.FirstOrDefault(place => place.String == banjoString);
            return new()
            {
                At = at,
                Length = time.Step,
                String = banjoString,
                Fret = held.Fret,
                Left = held.Fret == 0 ? null : held.Finger,
                Right = finger,
            };
        }
    }
}
