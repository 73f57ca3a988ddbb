using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Spots;

namespace Rollwright.Arranging.Reasons;

/// <summary>Takes the best path apart: the terms of every step, and what the next best would have cost.</summary>
public static class ReasonFinder
{
    /// <summary>One reason a step of the grid, in order.</summary>
    public static ImmutableArray<StepReason> Of(Solver solver)
    {
        var grid = solver.Lattice.Grid;
        var reasons = ImmutableArray.CreateBuilder<StepReason>(grid.Steps.Length);
        var fits = SpotFinder.Fits(solver);
        for (var step = 0; step < grid.Steps.Length; step++)
        {
            var lick = LickAt(solver, step);
            ImmutableArray<(Term, int)> terms =
                lick is null ? TermsOfStep(solver, step)
                : lick.Step == step ? TermsOfLick(solver, lick)
                : [];
            var done = solver.Best.Path[step];
            var others = Alternatives(solver, step, fits).Where(other => other.Done.Sound != done.Sound);
            reasons.Add(new(step, done, lick, terms, others.FirstOrDefault()));
        }
        return reasons.MoveToImmutable();
    }

    /// <summary>The terms of every step of the best path, without what else could have been.</summary>
    public static ImmutableArray<(Term Term, int Price)> Terms(Solver solver)
    {
        var terms = new List<(Term, int)>();
        for (var step = 0; step < solver.Best.Path.Length; step++)
        {
            var lick = LickAt(solver, step);
            if (lick is null)
                terms.AddRange(TermsOfStep(solver, step));
            else if (lick.Step == step)
                terms.AddRange(TermsOfLick(solver, lick));
        }
        return [.. terms];
    }

    private static LickPlace? LickAt(Solver solver, int step) =>
        solver.Best.Licks.FirstOrDefault(place => place.Step <= step && step <= place.LastStep);

    /// <summary>What the break costs by term, dearest first.</summary>
    public static ImmutableArray<(Term Term, int Price)> Table(Solver solver, ImmutableArray<StepReason> reasons)
    {
        var joins = new Terms();
        for (var bar = 0; bar < solver.Best.Ends.Length; bar++)
            solver.Joins.Of(ref joins, bar, solver.Best.Ends[bar].Shape, solver.Best.Ends[bar].State);
        return
        [
            .. reasons
                .SelectMany(reason => reason.Terms)
                .Concat(joins.Entries)
                .GroupBy(entry => entry.Term)
                .Select(group => (Term: group.Key, Price: group.Sum(entry => entry.Price)))
                .Where(entry => entry.Price != 0)
                .OrderByDescending(entry => Math.Abs(entry.Price))
                .ThenBy(entry => entry.Term),
        ];
    }

    /// <summary>Everything that could sound at a step, each with the price of the best break that does it, cheapest first.</summary>
    /// <param name="solver">The solved question.</param>
    /// <param name="step">The step.</param>
    /// <param name="fits">Every lick that fits somewhere, with its price.</param>
    public static ImmutableArray<Alternative> Alternatives(Solver solver, int step, ImmutableArray<LickFit> fits)
    {
        var best = new Dictionary<ulong, Alternative>();
        var lattice = solver.Lattice;
        var layer = lattice.LayerOf(step);
        var width = lattice.Prices(step).Width;
        var widthBefore = lattice.Prices(step).WidthBefore;
        var shapes = lattice.Shapes[step];
        var changed = solver.OverlayAt(step);
        var (moved, past, after) = (solver.Past.Moved(step), solver.Past.Before(step), solver.AfterAt(step));
        var total = solver.Best.Total;
        void Offer(PathStep done, int cost)
        {
            if (cost >= Solver.Barrier)
                return;
            if (!best.TryGetValue(done.Sound, out var known) || cost - total < known.Price)
                best[done.Sound] = new(done, cost - total);
        }

        // For every row and shape the best of all states first: there are many states, and few rows.
        var rows = lattice.Notes.Length * RightEvent.All.Length;
        var plucked = new int[rows * width];
        Array.Fill(plucked, Solver.Infinity);
        for (var r = 0; r < layer.States.Length; r++)
        {
            foreach (var way in layer.Ways[r])
                Vectors.MinOfSum(
                    plucked.AsSpan(way.Row * width, width),
                    moved.Of(r, way.Row),
                    after.AsSpan(way.Next * width, width),
                    way.Cost
                );
            if (layer.Slurs[r] is not { IsPossible: true } slurred)
                continue;
            var (manner, onString) = (layer.States[r].Manner, layer.States[r].String);
            var slurs = changed.SlursOn(manner, onString);
            for (var i = 0; i < slurs.Count; i++)
            {
                var (slur, cost) = slurs[i];
                Offer(
                    new(shapes[slur.To], RightEvent.Row(manner, RightEvent.Silence), onString, slur.Kind),
                    past[(r * widthBefore) + slur.From] + cost + slurred.Cost + after[(slurred.Next * width) + slur.To]
                );
            }
        }
        for (var row = 0; row < rows; row++)
        {
            for (var l = 0; l < shapes.Length; l++)
                Offer(new(shapes[l], row), plucked[(row * width) + l] + changed.Notes[(row * width) + l]);
        }
        foreach (var fit in fits)
        {
            if (fit.Place.Step <= step && step <= fit.Place.LastStep)
                Offer(fit.Place.Path[step - fit.Place.Step], fit.Whole + total);
        }
        return [.. best.Values.OrderBy(other => other.Price).ThenBy(other => other.Done.Sound)];
    }

    private static ImmutableArray<(Term, int)> TermsOfStep(Solver solver, int step)
    {
        var terms = new Terms();
        var lattice = solver.Lattice;
        var (held, state) = solver.Best.Nodes[step];
        var done = solver.Best.Path[step];
        StepTerms.Sounding(ref terms, lattice, solver.Overlay, step, lattice.Before(step)[held], done);
        RightTerms(ref terms, lattice, step, state, done);
        return [.. terms.Entries];
    }

    private static ImmutableArray<(Term, int)> TermsOfLick(Solver solver, LickPlace place)
    {
        var terms = new Terms();
        var lattice = solver.Lattice;
        var (held, state) = solver.Best.Nodes[place.Step];
        lattice.Style.Moves.Of(ref terms, lattice.Before(place.Step)[held], place.Path[0].Shape);
        LickEdge.Inside(ref terms, lattice, place, solver.Overlay);
        for (var i = 0; i < place.Path.Length; i++)
        {
            var (step, done) = (place.Step + i, place.Path[i]);
            var layer = lattice.LayerOf(step);
            if (done.SlurString != 0 || !LickEdge.IsMeant(place, done))
                RightTerms(ref terms, lattice, step, state, done);
            state = done.SlurString != 0 ? layer.Slurs[state].Next : layer.WayOf(state, done.Row)!.Value.Next;
        }
        return [.. terms.Entries];
    }

    private static void RightTerms(ref Terms terms, StepLattice lattice, int step, int state, PathStep done)
    {
        var layer = lattice.LayerOf(step);
        var price = lattice.Style.Manners[done.Manner].Right;
        var place = lattice.Grid.Steps[step];
        var pattern = new BarPattern.Step(place.Main, false, false, place.IsAfterTheEnd);
        var plain = new Sum();
        if (step == lattice.Grid.FirstOf(place.Bar) && lattice.Grid.IsFull(place.Bar))
        {
            price.OfBar(ref plain);
            price.OfBar(ref terms);
        }
        // The automaton knows which rolls are still open; the way's price says whether this event was the last straw.
        if (done.SlurString != 0)
        {
            price.OfSlur(ref terms, plain.Total != layer.Slurs[state].Cost);
            return;
        }
        price.Of(ref plain, layer.States[state], done.Event, false, pattern);
        price.Of(
            ref terms,
            layer.States[state],
            done.Event,
            plain.Total != layer.WayOf(state, done.Row)!.Value.Cost,
            pattern
        );
    }
}
