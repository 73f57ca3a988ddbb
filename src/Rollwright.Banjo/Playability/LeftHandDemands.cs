using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Banjo.Playability;

/// <summary>
/// What the left hand needs time for: fingers put down, a finger that leaves one fret for another, the hand that moves
/// along the neck, stretches, slurs. Open strings and the short string give it time: it is counted from the last fretted
/// note that had to sound.
/// </summary>
internal sealed class LeftHandDemands(HandTimes times)
{
    private readonly record struct Use(TimedMoment At, Stroke Stroke);

    private readonly Use?[] fingers = new Use?[5];
    private readonly Use?[] strings = new Use?[Neck.Strings + 1];
    private TimedMoment? placed;
    private Use? fretted;
    private int position;

    public static IEnumerable<HandDemand> Of(ImmutableArray<TimedMoment> moments, HandTimes times)
    {
        var hand = new LeftHandDemands(times);
        return moments.SelectMany(moment => hand.Next(moment).ToArray());
    }

    private IEnumerable<HandDemand> Next(TimedMoment now)
    {
        PlayedStroke[] held = [.. now.Moment.Strokes.Where(item => item.Stroke.Fret > 0)];
        PlayedStroke[] put = [.. held.Where(IsPutDown)];
        IEnumerable<HandDemand> all =
        [
            .. Slurs(now),
            .. put.SelectMany(item => Hop(now, item)),
            .. Placing(now, [.. put.Where(item => item.Stroke.Slur is null)], held),
            .. Shift(now, held),
        ];
        Remember(now, held, put);
        return all;
    }

    // A finger that lies on the fret already, slides there, or waits there for a pull-off is not put down.
    private bool IsPutDown(PlayedStroke item) =>
        item.Stroke.Slur is null or SlurKind.HammerOn
        && !(
            strings[item.Stroke.String] is { } last
            && last.Stroke.Fret == item.Stroke.Fret
            && last.Stroke.Left == item.Stroke.Left
            && (
                Finger(item.Stroke) is not { } f || fingers[f] is not { } use || use.Stroke.String == item.Stroke.String
            )
        );

    private IEnumerable<HandDemand> Slurs(TimedMoment now)
    {
        foreach (var item in now.Moment.Strokes)
        {
            if (item.Stroke.Slur is not { } kind || strings[item.Stroke.String] is not { } from)
                continue;
            var way =
                kind == SlurKind.Slide ? Math.Abs(Neck.Place(item.Stroke.Fret) - Neck.Place(from.Stroke.Fret)) : 0;
            yield return new(
                item,
                now.Sounds - from.At.Sounds,
                times.Slur(kind) + (times.SlidePerMm * way),
                $"a {SlurNames.Word(kind)} from fret {from.Stroke.Fret} to {item.Stroke.Fret} within {now.Since(from.At)}"
            );
        }
    }

    private IEnumerable<HandDemand> Hop(TimedMoment now, PlayedStroke item)
    {
        if (Finger(item.Stroke) is not { } finger || fingers[finger] is not { } last)
            yield break;
        var (here, there) = (item.Stroke, last.Stroke);
        var lies = here.Fret == there.Fret && Math.Abs(here.String - there.String) == 1;
        yield return new(
            item,
            now.Sounds - last.At.Sounds,
            times.Sound + (lies ? times.Lay : times.Hop),
            here.String == there.String && here.Fret == there.Fret
                ? $"left finger {finger} leaves fret {here.Fret} of string {here.String} and comes back within {now.Since(last.At)}"
                : $"left finger {finger} goes from fret {there.Fret} of string {there.String} to fret {here.Fret} of string {here.String} in {now.Since(last.At)}"
        );
    }

    private IEnumerable<HandDemand> Placing(TimedMoment now, PlayedStroke[] put, PlayedStroke[] held)
    {
        if (put.Length == 0 || placed is not { } before)
            yield break;
        // A barre is one finger; notes whose finger is not named count one each.
        var count = put.Select(item => (object?)Finger(item.Stroke) ?? item.Index).Distinct().Count();
        yield return new(
            put[0],
            now.Sounds - before.Sounds,
            times.Place + (times.PlaceMore * (count - 1)),
            count == 1
                ? $"a finger is put down {now.Since(before)} after another"
                : $"{count} fingers are put down at once, {now.Since(before)} after the last"
        );
        var reach = Reach.Between(held.Select(item => item.Stroke.Fret));
        if (reach > Reach.Comfortable)
            yield return new(
                put[0],
                now.Sounds - before.Sounds,
                times.Place + (times.PlaceMore * (count - 1)) + (times.StretchPerMm * (reach - Reach.Comfortable)),
                $"the left hand stretches over {reach:0} mm, {now.Since(before)} after a finger was put down"
            );
    }

    private IEnumerable<HandDemand> Shift(TimedMoment now, PlayedStroke[] held)
    {
        if (held.Length == 0)
            yield break;
        var (low, high) = PositionsOf(held);
        var to = position == 0 ? low : Math.Clamp(position, low, high);
        var way = Math.Abs(Neck.Place(to) - Neck.Place(position));
        // A slide carries the hand along; it has its own time.
        var slides = Array.Exists(held, item => item.Stroke.Slur == SlurKind.Slide);
        if (position > 0 && way > 0 && !slides && fretted is { } last)
            yield return new(
                held[0],
                now.Sounds - last.At.Sounds,
                times.Sound + times.Shift + (times.ShiftPerMm * way),
                held[0].Stroke.Fret == last.Stroke.Fret
                    ? $"the left hand moves along the neck for other fingers at fret {last.Stroke.Fret} in {now.Since(last.At)}"
                    : $"the left hand moves from fret {last.Stroke.Fret} to fret {held[0].Stroke.Fret} in {now.Since(last.At)}"
            );
        position = to;
    }

    /// <summary>
    /// Where the index finger may stand, as frets: behind the finger that holds the note, a fret closer or wider (our
    /// own assumption); anywhere within four frets where no finger is named.
    /// </summary>
    private static (int Low, int High) PositionsOf(PlayedStroke[] held)
    {
        var (low, high) = (1, Neck.LastFret);
        foreach (var item in held)
        {
            var fret = item.Stroke.Fret;
            var (from, to) = Finger(item.Stroke) switch
            {
                0 => (1, Neck.LastFret),
                1 => (fret, fret),
                { } finger => (fret - finger, fret - finger + 2),
                null => (fret - 3, fret),
            };
            (low, high) = (Math.Max(low, from), Math.Min(high, Math.Max(1, to)));
        }
        return low <= high ? (low, high) : (high, low);
    }

    private void Remember(TimedMoment now, PlayedStroke[] held, PlayedStroke[] put)
    {
        foreach (var item in now.Moment.Strokes)
        {
            strings[item.Stroke.String] = new(now, item.Stroke);
            if (item.Stroke.Fret > 0 && Finger(item.Stroke) is { } finger)
                fingers[finger] = new(now, item.Stroke);
        }
        if (put.Length > 0)
            placed = now;
        if (held.Length > 0)
            fretted = new(now, held[0].Stroke);
    }

    // 0 to 4; null where none is named.
    private static int? Finger(Stroke stroke) => stroke.Left is >= 0 and <= 4 ? stroke.Left : null;
}
