using System.Diagnostics;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;

namespace Rollwright.Waits;

/// <summary>
/// Single sweeps over lattices whose prices stand: how many edges a second, how much memory an edge. Edges: what the right
/// hand does from each state under each shape, and each way of the left hand into it.
/// </summary>
internal sealed class Sweeps
{
    private double edges;
    private double seconds;
    private double bytes;

    public void Take(StepLattice lattice)
    {
        var count = Enumerable.Range(0, lattice.Grid.Steps.Length).Sum(step => EdgesOf(lattice, step));
        var before = GC.GetAllocatedBytesForCurrentThread();
        var started = Stopwatch.GetTimestamp();
        Solver.Open(lattice, new(lattice.Grid.Steps.Length));
        seconds += Stopwatch.GetElapsedTime(started).TotalSeconds;
        bytes += GC.GetAllocatedBytesForCurrentThread() - before;
        edges += count;
    }

    public override string ToString() =>
        $"one sweep: {edges / seconds:0.0e0} edges a second, {bytes / edges:0.000} bytes an edge";

    // Asks for the prices, so that they stand.
    private static double EdgesOf(StepLattice lattice, int step)
    {
        lattice.Prices(step);
        var layer = lattice.LayerOf(step);
        double shapes = lattice.Shapes[step].Length;
        return (layer.Ways.Sum(ways => ways.Length) * shapes)
            + (layer.States.Length * shapes * lattice.Before(step).Length);
    }
}
