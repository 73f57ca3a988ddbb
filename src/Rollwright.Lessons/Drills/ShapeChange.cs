using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Lessons.Words;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Drills;

/// <summary>The left hand from one bar's fingers to the next one's, with a plain right hand that lets it be heard.</summary>
internal static class ShapeChange
{
    // One finger alone is no shape.
    private const int LeastFingers = 2;

    public static Drill? Of(Break played)
    {
        var hands = Hands(played);
        var changes = hands
            .Zip(hands.Skip(1))
            .Where(pair =>
                pair.First.Phrase == pair.Second.Phrase
                && Math.Max(pair.First.Places.Length, pair.Second.Places.Length) >= LeastFingers
                && !pair.First.Places.SequenceEqual(pair.Second.Places)
            )
            .OrderByDescending(pair => Math.Min(pair.First.Places.Length, pair.Second.Places.Length))
            .ThenByDescending(pair => pair.First.Places.Length + pair.Second.Places.Length)
            .ThenBy(pair => pair.First.Bar);
        foreach (var (one, other) in changes)
        {
            var time = played.Bars[other.Bar].Time;
            var plucks = Plucks([.. one.Places, .. other.Places]);
            // Two steps for each, so that a shape can be heard whole; what is longer than a bar is no drill.
            if (time.Bar < time.Step * (2 * plucks.Length))
                continue;
            var excerpt = Excerpt.OfStrokes(
                played,
                time,
                $"{played.Title}: the shape change alone",
                Struck(one.Places, plucks, time),
                Struck(other.Places, plucks, time)
            );
            if (Excerpt.Playable(excerpt) is { } take)
            {
                var counting = new Counting(played);
                return new(
                    DrillKind.ShapeChange,
                    "The shape change alone",
                    $"From what the left hand holds at the end of {counting.NameOf(one.Bar)} to what it holds at the end of {counting.NameOf(other.Bar)}: have each finger down by its count, and move no other.",
                    [new("", take)]
                );
            }
        }
        return null;
    }

    // What the left hand holds at the end of each bar in which fingers came down, phrase by phrase as it is told: the highest
    // finger of each string, since those behind it are not heard.
    private static List<(int Phrase, int Bar, ImmutableArray<FingerPlace> Places)> Hands(Break played)
    {
        var begins = new PhraseHands(played);
        var hands = new List<(int Phrase, int Bar, ImmutableArray<FingerPlace> Places)>();
        foreach (var phrase in begins.Phrases)
        {
            var hand = begins.At(phrase);
            foreach (var bar in phrase.Bars)
            {
                if (hand.Next(bar).Any(motion => motion.Kind == LeftMotionKind.Down))
                    hands.Add((phrase.Number, bar, Heard(hand.Held)));
            }
        }
        return [.. hands.Where(one => !one.Places.IsEmpty)];
    }

    private static ImmutableArray<FingerPlace> Heard(ImmutableArray<FingerPlace> held) =>
        [
            .. held.Where(place => place.String < Neck.Strings)
                .GroupBy(place => place.String)
                .Select(there => there.MaxBy(place => place.Fret)),
        ];

    // Every string that either hand holds, from the low side; three at least, as a plain right hand has them.
    private static ImmutableArray<(int String, RightFinger Finger)> Plucks(ImmutableArray<FingerPlace> places)
    {
        var (four, three) = (places.Any(place => place.String == 4), places.Any(place => place.String == 3));
        var plucks = ImmutableArray.CreateBuilder<(int, RightFinger)>();
        if (four)
            plucks.Add((4, RightFinger.T));
        if (three || !four)
            plucks.Add((3, RightFinger.T));
        plucks.Add((2, RightFinger.I));
        plucks.Add((1, RightFinger.M));
        return plucks.ToImmutable();
    }

    private static ImmutableArray<Stroke> Struck(
        ImmutableArray<FingerPlace> places,
        ImmutableArray<(int String, RightFinger Finger)> plucks,
        TimeSignature time
    ) =>
        [
            .. plucks.Select(
                (pluck, i) =>
                {
                    var held = places.FirstOrDefault(place => place.String == pluck.String);
                    return new Stroke
                    {
                        At = time.Step * (2 * i),
                        Length = time.Step,
                        String = pluck.String,
                        Fret = held.Fret,
                        Left = held.Fret == 0 ? null : held.Finger,
                        Right = pluck.Finger,
                    };
                }
            ),
        ];
}
