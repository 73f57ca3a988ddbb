using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.Lessons.Practice;
using Rollwright.Lessons.Words;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Drills;

/// <summary>Takes drills out of a break. What a break has not, or hands could not play by itself, is left out.</summary>
public static class DrillMaker
{
    /// <param name="played">The break.</param>
    /// <param name="made">How it came about, for the licks that fit; null where that is not known.</param>
    public static ImmutableArray<Drill> Of(Break played, Arrangement? made = null)
    {
        ArgumentNullException.ThrowIfNull(played);
        Drill?[] drills =
        [
            RollAlone(played),
            ShapeChange.Of(played),
            SlurAlone(played),
            HardBar(played),
            made is null ? null : SpotDrill.Of(made),
        ];
        return [.. drills.OfType<Drill>()];
    }

    // The right hand that comes most often; one with a name before others.
    private static Drill? RollAlone(Break played)
    {
        var alone = RightHandAlone.Of(played);
        var bars = Enumerable
            .Range(0, played.Bars.Length)
            .Where(bar => !played.Bars[bar].IsPartial && alone.Bars[bar].Strokes.Length > 1)
            .GroupBy(bar =>
                string.Join(' ', alone.Bars[bar].Strokes.Select(stroke => $"{stroke.At}{stroke.Right}{stroke.String}"))
            )
            .OrderByDescending(group => RollIn(played, group.First()) is not null)
            .ThenByDescending(group => group.Count())
            .ThenBy(group => group.First())
            .Select(group => group.First());
        foreach (var bar in bars)
        {
            var name = RollIn(played, bar);
            var what = name is null ? "the right hand" : $"the {name} roll";
            var excerpt = Excerpt.Of(alone, [bar], $"{played.Title}: {what} alone");
            // Only where no left hand is in it may the roll of the bar be said by name again.
            excerpt = excerpt with
            {
                Spans = [.. Excerpt.Of(played, [bar], "").Spans.Where(IsRoll)],
                // On open strings no chord of the tune sounds.
                Bars = [.. excerpt.Bars.Select(one => one with { Chords = [] })],
            };
            if (Excerpt.Playable(excerpt) is { } take)
                return new(
                    DrillKind.RollAlone,
                    "The roll alone",
                    $"The right hand of {new Counting(played).NameOf(bar)}, all strings open: every note as loud as the others and as long, until it runs without thinking.",
                    [new("", take)]
                );
        }
        return null;
    }

    private static bool IsRoll(Span span) => span.Kind == SpanKind.Roll;

    private static string? RollIn(Break played, int bar) =>
        played.Spans.FirstOrDefault(span => span.Bar == bar && IsRoll(span))?.Name;

    // The slur that comes most often, once in every beat group.
    private static Drill? SlurAlone(Break played)
    {
        var slurs = SlurLinks
            .Of(played)
            .Select(link => (link.Kind, From: Stroke(link.From), To: Stroke(link.To), link.To.Bar))
            .Where(slur => slur.From.Right is not null)
            .GroupBy(slur => (slur.Kind, slur.From.String, From: slur.From.Fret, To: slur.To.Fret))
            .OrderByDescending(group => group.Count())
            .ThenBy(group => group.First().Bar)
            .Select(group => group.First());
        foreach (var slur in slurs)
        {
            var time = played.Bars[slur.Bar].Time;
            var steps = (int)(time.Bar / time.Step).Floor();
            var apart =
                steps % 4 == 0 ? 4
                : steps % 3 == 0 ? 3
                : 2;
            var strokes = Enumerable
                .Range(0, steps / apart)
                .Select(i => time.Step * (i * apart))
                .SelectMany(at => new[] { slur.From with { At = at }, slur.To with { At = at + time.Step } })
                .Select(stroke => stroke with { IsMelody = false })
                .ToImmutableArray();
            var words =
                $"{SlurNames.Word(slur.Kind)} on string {slur.From.String}, {HandNames.Fret(slur.From.Fret)} to {HandNames.Fret(slur.To.Fret)}";
            if (
                Excerpt.Playable(Excerpt.OfStrokes(played, time, $"{played.Title}: the slur alone", strokes)) is
                { } take
            )
                return new(
                    DrillKind.SlurAlone,
                    "The slur alone",
                    $"The {words}: the second note as loud as the first, and exactly on its count.",
                    [new("", take)]
                );
        }
        return null;

        Stroke Stroke(StrokeName name) => played.Bars[name.Bar].Strokes[name.Index];
    }

    private static Drill? HardBar(Break played)
    {
        var bars = TempoLimit
            .Of(played)
            .Bars.Where(bar => bar.PerMinute is not null && !played.Bars[bar.Bar].IsPartial)
            .OrderBy(bar => bar.PerMinute);
        foreach (var bar in bars)
        {
            var limits = bar.PerMinute < played.Tempo.PerMinute;
            var asks = limits
                ? "it is what limits the tempo"
                : "at full tempo no bar is beyond the hands, and this one asks most of them";
            foreach (var hard in Around(played, bar))
            {
                var loop = hard.Bars.Length == 1 ? "" : ": play both bars";
                var excerpt = Excerpt.Of(played, hard.Bars, $"{played.Title}: {hard.Place} at half speed");
                excerpt = excerpt with { Tempo = played.Tempo with { PerMinute = played.Tempo.PerMinute / 2 } };
                if (Excerpt.Playable(excerpt) is { } take)
                    return new(
                        DrillKind.HardBar,
                        "The hardest bar at half speed",
                        $"{char.ToUpperInvariant(hard.Place[0])}{hard.Place[1..]}{loop}, at {played.Tempo.UnitName} = {take.Tempo.PerMinute:0}; {asks}: {bar.Words}.",
                        [new("", take)]
                    );
            }
        }
        return null;
    }

    // With the bar from which it is hard to come; by itself where the two are not a whole or cannot be played again and again.
    private static IEnumerable<(ImmutableArray<int> Bars, string Place)> Around(Break played, BarTempo bar)
    {
        var bars = HardPlaces.Bars(bar);
        if (bars.Length > 1 && bars.All(one => !played.Bars[one].IsPartial))
            yield return (bars, HardPlaces.Words(played, bar));
        yield return ([bar.Bar], new Counting(played).NameOf(bar.Bar));
    }
}
