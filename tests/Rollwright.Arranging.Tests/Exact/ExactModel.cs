using Google.OrTools.Sat;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Wishes;

namespace Rollwright.Arranging.Tests.Exact;

/// <summary>
/// The question of a lattice, written once more for a general-purpose constraint solver: what each hand may do is a set
/// of rules over yes-or-no variables, the prices come from the price classes alone. Of the arranger's own way to the
/// answer (its automata, tables, nodes and edges) nothing is used but the shapes and the licks that are on offer.
/// </summary>
public sealed class ExactModel
{
    // One thread, so that it does the same every time. What it does by default before it searches (probing, rewriting)
    // takes ten times as long as the search itself in questions as small as these.
    private const string Parameters =
        "num_workers:1,random_seed:1,max_time_in_seconds:300,linearization_level:2,cp_model_probing_level:0,"
        + "symmetry_level:0,max_presolve_iterations:1,use_sat_inprocessing:false";

    private readonly CpModel model = new();
    private readonly LinearExprBuilder cost = LinearExpr.NewBuilder();

    private ExactModel(StepLattice lattice, Overlay overlay)
    {
        Lattice = lattice;
        Overlay = overlay;
        Metre = new BarTimes(lattice.Grid, lattice.Style.Rolls);
        Manners = new BoolVar[lattice.Grid.Bars.Length][];
        Steps = new StepDoings[lattice.Grid.Steps.Length];
        for (var bar = 0; bar < Manners.Length; bar++)
            Manners[bar] = ChooseManner(bar);
        var licks = new LickDoings(this);
        for (var step = 0; step < Steps.Length; step++)
            Steps[step] = new StepDoings(this, step, licks.At(step));
        for (var bar = 0; bar < Manners.Length; bar++)
            KeepManner(bar);
        LeftHandRules.Add(this);
        RightHandRules.Add(this);
        model.Minimize(cost);
    }

    /// <summary>What the solver found.</summary>
    /// <param name="Total">The least cost; meaningless where there is no way at all.</param>
    /// <param name="Status">Optimal where the total is proven.</param>
    public sealed record Answer(long Total, CpSolverStatus Status);

    public StepLattice Lattice { get; }

    public Overlay Overlay { get; }

    public StepGrid Grid => Lattice.Grid;

    public BarTimes Metre { get; }

    public StepDoings[] Steps { get; }

    /// <summary>For each bar, which of the style's ways of playing it is in.</summary>
    public BoolVar[][] Manners { get; }

    /// <summary>The model of a lattice with what is laid over it, ready to be solved.</summary>
    public static ExactModel Of(StepLattice lattice, Overlay overlay) => new(lattice, overlay);

    /// <summary>Solves on one thread.</summary>
    /// <param name="atMost">
    /// What another found: dearer ways need no look. Where the least is less it is found, and where it is more there is no answer.
    /// </param>
    public Answer Solve(long? atMost = null)
    {
        if (atMost is { } most)
            model.Add(cost <= most);
        var solver = new CpSolver { StringParameters = Parameters };
        var status = solver.Solve(model);
        return new(status == CpSolverStatus.Optimal ? (long)Math.Round(solver.ObjectiveValue) : 0, status);
    }

    public BoolVar Choice() => model.NewBoolVar("");

    public void Price(IntVar choice, long price)
    {
        if (price != 0)
            cost.AddTerm(choice, price);
    }

    public void Price(long price) => cost.Add(price);

    public void Require(BoundedLinearExpression rule) => model.Add(rule);

    public static LinearExpr Sum(IEnumerable<BoolVar> choices) => LinearExpr.Sum(choices);

    /// <summary>The step before in play; -1 before the first.</summary>
    public int Before(int step)
    {
        var bar = Grid.Steps[step].Bar;
        if (step > Grid.FirstOf(bar))
            return step - 1;
        return Grid.Tree.Parent[bar] is var parent and >= 0 ? Grid.Bars[parent].End.Value - 1 : -1;
    }

    /// <summary>The place after where only one can follow.</summary>
    public StepPlace? Next(int step)
    {
        var bar = Grid.Steps[step].Bar;
        if (step + 1 < Grid.Bars[bar].End.Value)
            return Grid.Steps[step + 1];
        var after = Enumerable.Range(0, Grid.Bars.Length).Where(child => Grid.Tree.Parent[child] == bar).ToArray();
        return after is [var only] ? Grid.Steps[Grid.FirstOf(only)] : null;
    }

    private BoolVar[] ChooseManner(int bar)
    {
        var ways = Lattice.Style.Manners.Select(_ => Choice()).ToArray();
        model.AddExactlyOne(ways);
        return ways;
    }

    // A phrase is played in one way; it changes with a pluck or a silence where a phrase opens.
    private void KeepManner(int bar)
    {
        foreach (var step in Steps.AsSpan()[Grid.Bars[bar]])
        {
            for (var manner = 0; manner < Manners[bar].Length; manner++)
                model.Add(
                    Sum(step.Plucks.Where(pluck => pluck.Manner == manner).Select(pluck => pluck.Chosen))
                        <= Manners[bar][manner]
                );
        }
        var parent = Grid.Tree.Parent[bar];
        if (parent < 0)
            return;
        var slurs = Sum(Steps[Grid.FirstOf(bar)].Slurs.Select(slur => slur.Chosen));
        for (var manner = 0; manner < Manners[bar].Length; manner++)
        {
            if (!Grid.OpensPhrase(bar))
                model.Add(Manners[bar][manner] == Manners[parent][manner]);
            else
                model.Add(Manners[bar][manner] >= Manners[parent][manner] + slurs - 1);
        }
    }
}
