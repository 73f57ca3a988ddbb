using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Locks;

namespace Rollwright.Arranging.Solving;

/// <summary>
/// Other beginnings for the bars that play jumps to: where locks leave some end no way into the cheapest one, the next
/// cheapest is tried, until hands can play it all.
/// </summary>
internal static class Beginnings
{
    /// <param name="first">The first solution: possible, its jumps not yet joined.</param>
    /// <param name="overlay">What the last question lays over the lattice besides; only its likenesses are used.</param>
    /// <returns>Possible where some choice of beginnings is.</returns>
    public static Solver Find(Solver first, Overlay overlay)
    {
        var grid = first.Lattice.Grid;
        var settled = first.Overlay.Copy();
        settled.LikeAs(overlay);
        var solver = first;
        foreach (var to in grid.Tree.Seams.Select(seam => seam.To).Distinct())
        {
            var step = grid.FirstOf(to);
            foreach (var done in Candidates(first, step))
            {
                var tried = settled.Copy();
                tried.Add(new StepLock(step, done));
                tried.SeamTargets[to] = done;
                solver = Solver.Open(first.Lattice, tried);
                if (!solver.Best.IsPossible)
                    continue;
                settled = tried;
                break;
            }
            if (!solver.Best.IsPossible)
                return solver;
        }
        return solver;
    }

    // What bars an end's way is a tired finger or a far shape: of each set of fingers, with something held and with
    // nothing, the cheapest is enough.
    private static IEnumerable<PathStep> Candidates(Solver first, int step)
    {
        var layer = first.Lattice.LayerOf(step);
        var shapes = first.Lattice.Shapes[step];
        var width = first.Lattice.Prices(step).Width;
        var (moved, notes, after) = (first.Past.Moved(step), first.OverlayAt(step).Notes, first.AfterAt(step));
        var best = new Dictionary<(int Fingers, bool IsOpen), (PathStep Done, int Cost)>();
        for (var r = 0; r < layer.States.Length; r++)
        {
            foreach (var way in layer.Ways[r])
            {
                var come = moved.Of(r, way.Row);
                for (var l = 0; l < shapes.Length; l++)
                {
                    var cost = come[l] + way.Cost + notes[(way.Row * width) + l] + after[(way.Next * width) + l];
                    var key = (RightEvent.All[RightEvent.EventOf(way.Row)].FingerMask, shapes[l].IsOpen);
                    if (cost < Solver.Barrier && (!best.TryGetValue(key, out var known) || cost < known.Cost))
                        best[key] = (new(shapes[l], way.Row), cost);
                }
            }
        }
        return best.Values.OrderBy(found => found.Cost).Select(found => found.Done);
    }
}
