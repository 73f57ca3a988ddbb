using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Plan;

/// <summary>What a break asks the hands to know: its rolls, slurs, pinches, licks, and how far up it goes.</summary>
public static class Techniques
{
    /// <summary>A line each: "alternating thumb roll, in 4 bars".</summary>
    public static ImmutableArray<string> Of(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var strokes = played.Bars.SelectMany(bar => bar.Strokes).ToList();
        var pinches = played.Bars.Sum(bar => Slot.Of(bar).Count(slot => slot.Plucks.Length > 1));
        var highest = strokes.Select(stroke => stroke.Fret).DefaultIfEmpty(0).Max();
        return
        [
            .. played
                .Spans.Where(span => span.Kind == SpanKind.Roll)
                .CountBy(span => span.Name)
                .OrderByDescending(roll => roll.Value)
                .Select(roll => $"the {RightHandWords.NameOf(roll.Key)}, in {Counted(roll.Value, "bar")}"),
            .. strokes
                .Where(stroke => stroke.Slur is not null)
                .CountBy(stroke => stroke.Slur!.Value)
                .OrderByDescending(slur => slur.Value)
                .Select(slur => $"{Counted(slur.Value, SlurNames.Word(slur.Key))}"),
            .. pinches > 0 ? [Counted(pinches, "pinch", "pinches")] : Array.Empty<string>(),
            .. played
                .Spans.Where(span => span.Kind is SpanKind.Lick or SpanKind.Tag && span.Bar < played.Bars.Length)
                .GroupBy(span => (span.Kind, span.Name))
                .Select(times =>
                    $"the {(times.Key.Kind == SpanKind.Tag ? "closing lick" : "lick")} '{times.Key.Name}', {played.Numbering.Words([.. times.Select(span => span.Bar).Distinct()])}"
                ),
            highest == 0 ? "open strings only" : $"frets up to {highest}",
        ];
    }

    private static string Counted(int count, string one, string? many = null) =>
        count == 1 ? $"1 {one}" : $"{count} {many ?? one + "s"}";
}
