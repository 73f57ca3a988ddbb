using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Banjo.Playability;

/// <summary>
/// What the right hand needs time for: any pluck after another, the same finger again (more where it moves to another
/// string), the same string again by another finger.
/// </summary>
internal static class RightHandDemands
{
    private readonly record struct Last(TimedMoment At, Stroke Stroke);

    public static IEnumerable<HandDemand> Of(ImmutableArray<TimedMoment> moments, HandTimes times)
    {
        var byFinger = new Dictionary<RightFinger, Last>();
        var byString = new Last?[Neck.Strings + 1];
        TimedMoment? before = null;
        foreach (var now in moments)
        {
            var plucked = now.Moment.Strokes.Where(item => item.Stroke is { Slur: null, Right: not null }).ToArray();
            if (plucked.Length == 0)
                continue;
            if (before is { } any)
                yield return new(
                    plucked[0],
                    now.Sounds - any.Sounds,
                    times.Pluck,
                    $"the right hand plucks again after {now.Since(any)}"
                );
            foreach (var item in plucked)
            {
                var finger = item.Stroke.Right!.Value;
                if (byFinger.TryGetValue(finger, out var last))
                    yield return new(
                        item,
                        now.Sounds - last.At.Sounds,
                        times.Again(finger) + (times.StringAway * Math.Abs(item.Stroke.String - last.Stroke.String)),
                        Again(finger, item.Stroke, last.Stroke) + $" after {now.Since(last.At)}"
                    );
                if (byString[item.Stroke.String] is { } other && other.Stroke.Right != finger)
                    yield return new(
                        item,
                        now.Sounds - other.At.Sounds,
                        times.SameString,
                        $"two fingers pluck string {item.Stroke.String} in turn, {now.Since(other.At)} apart"
                    );
            }
            foreach (var item in plucked)
                byFinger[item.Stroke.Right!.Value] = (byString[item.Stroke.String] = new Last(now, item.Stroke)).Value;
            before = now;
        }
    }

    private static string Again(RightFinger finger, Stroke stroke, Stroke before)
    {
        var name =
            finger == RightFinger.T ? "thumb"
            : finger == RightFinger.I ? "right index finger"
            : "right middle finger";
        return stroke.String == before.String
            ? $"the {name} plucks string {stroke.String} again"
            : $"the {name} goes from string {before.String} to string {stroke.String}";
    }
}
