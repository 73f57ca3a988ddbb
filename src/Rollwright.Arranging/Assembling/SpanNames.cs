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
            if (!lattice.Grid.IsFull(bar) || Fingers(lattice, solution, lattice.Grid.Bars[bar]) is not { } fingers)
                continue;
            var roll = RollTable.All.FirstOrDefault(roll =>
                fingers.Select((finger, i) => roll.FingerAt(i) == finger).All(same => same)
            );
            if (roll is not null)
                spans.Add(new(SpanKind.Roll, roll.Name, bar, Fraction.Zero, lattice.Grid.StepOf(bar) * fingers.Length));
        }
        foreach (var place in solution.Licks)
        {
            var first = lattice.Grid.Steps[place.Step];
            spans.RemoveAll(span => span.Kind == SpanKind.Roll && span.Bar == first.Bar);
            var kind = place.Lick.Role == LickRole.Tag ? SpanKind.Tag : SpanKind.Lick;
            spans.Add(new(kind, place.Lick.Name, first.Bar, first.At, Length(lattice, place)));
        }
        return [.. spans.OrderBy(span => span.Bar).ThenBy(span => span.At)];
    }

    private static Fraction Length(StepLattice lattice, LickPlace place)
    {
        var (first, last) = (lattice.Grid.Steps[place.Step], lattice.Grid.Steps[place.LastStep]);
        return last.At + last.Length - first.At;
    }

    private static RightFinger[]? Fingers(StepLattice lattice, Solution solution, Range steps)
    {
        var fingers = new List<RightFinger>();
        for (var at = steps.Start.Value; at < steps.End.Value; at++)
        {
            var step = solution.Path[at];
            // A step between is no step of the roll; a slur in it does not stop the hand.
            if (lattice.Grid.Steps[at].IsBetween && step.Event.IsSilent)
                continue;
            if (step.Event.Plucks is not [var (finger, _)])
                return null;
            fingers.Add(finger);
        }
        return [.. fingers];
    }
}
