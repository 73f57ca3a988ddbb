using System.Collections.Immutable;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Rolls;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Arranging.Assembling;

/// <summary>Names what players know in a path: its licks, and the bars that are a roll, every step plucked by one finger.</summary>
public static class SpanNames
{
    public static ImmutableArray<Span> Of(StepLattice lattice, Solution solution)
    {
        var spans = new List<Span>();
        for (var bar = 0; bar < lattice.Grid.Bars.Length; bar++)
        {
            if (!lattice.Grid.IsFull(bar) || Fingers(solution, lattice.Grid.Bars[bar]) is not { } fingers)
                continue;
            var roll = RollTable.All.FirstOrDefault(roll =>
                fingers.Select((finger, i) => roll.FingerAt(i) == finger).All(same => same)
            );
            if (roll is not null)
                spans.Add(
                    new(
                        SpanKind.Roll,
                        roll.Name,
                        bar,
                        Fraction.Zero,
                        lattice.Grid.Steps[lattice.Grid.FirstOf(bar)].Length * fingers.Length
                    )
                );
        }
        foreach (var place in solution.Licks)
        {
            var first = lattice.Grid.Steps[place.Step];
            spans.RemoveAll(span => span.Kind == SpanKind.Roll && span.Bar == first.Bar);
            var kind = place.Lick.Role == LickRole.Tag ? SpanKind.Tag : SpanKind.Lick;
            spans.Add(new(kind, place.Lick.Name, first.Bar, first.At, first.Length * place.Path.Length));
        }
        return [.. spans.OrderBy(span => span.Bar).ThenBy(span => span.At)];
    }

    private static RightFinger[]? Fingers(Solution solution, Range steps)
    {
        var fingers = new List<RightFinger>();
        foreach (var step in solution.Path.AsSpan()[steps])
        {
            if (RightEvent.All[step.Event].Plucks is not [var (finger, _)])
                return null;
            fingers.Add(finger);
        }
        return [.. fingers];
    }
}
