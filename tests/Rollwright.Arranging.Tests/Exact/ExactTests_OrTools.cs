using Google.OrTools.Sat;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;

namespace Rollwright.Arranging.Tests.Exact;

/// <summary>
/// The arranger's path against the same question written for Google's constraint solver CP-SAT (OR-Tools 9.15), which
/// proves its optimum.
/// </summary>
public class ExactTests_OrTools
{
    // All questions together; every style has a quarter.
    private const int Questions = 208;

    public static TheoryData<string> Styles => [.. StyleTable.Solo.Select(style => style.Name)];

    private static IEnumerable<SmallQuestion> Of(string style) =>
        Enumerable.Range(0, Questions).Select(SmallQuestion.Of).Where(question => question.Style.Name == style);

    [Theory]
    [MemberData(nameof(Styles))]
    public void The_path_costs_what_a_constraint_solver_proves_to_be_the_least(string style) =>
        Parallel.ForEach(
            Of(style),
            new ParallelOptions { MaxDegreeOfParallelism = 2 },
            question =>
            {
                var solver = question.Solve();
                var proven = ExactModel.Of(solver.Lattice, solver.Overlay).Solve(solver.Best.Total);
                proven.Status.Should().Be(CpSolverStatus.Optimal, question.ToString());
                proven.Total.Should().Be(solver.Best.Total, question.ToString());
            }
        );

    // What the constraint solver is told of the path's cost can hide no fault of the path.
    [Fact]
    public void A_cost_that_is_too_high_or_too_low_is_found_out()
    {
        foreach (var question in Enumerable.Range(0, 4).Select(SmallQuestion.Of))
        {
            var solver = question.Solve();
            var least = solver.Best.Total;
            ExactModel.Of(solver.Lattice, solver.Overlay).Solve(least + 100).Total.Should().Be(least);
            ExactModel
                .Of(solver.Lattice, solver.Overlay)
                .Solve(least - 1)
                .Status.Should()
                .Be(CpSolverStatus.Infeasible);
        }
    }

    [Fact]
    public void The_questions_ask_for_all_that_the_arranger_knows()
    {
        var solved = Enumerable
            .Range(0, Questions)
            .Select(SmallQuestion.Of)
            .Select(question => (Question: question, Solver: question.Solve()))
            .ToArray();
        solved.Should().OnlyContain(item => item.Solver.Best.IsPossible);
        solved.Select(item => (item.Question.Style.Name, item.Question.Level)).Distinct().Should().HaveCount(20);
        solved.Select(item => item.Question.Tuning.Id).Distinct().Count().Should().BeGreaterThan(4);
        int Count(Func<Solver, bool> has) => solved.Count(item => has(item.Solver));
        Count(solver => solver.Best.Path.Any(step => step.SlurString != 0)).Should().BeGreaterThan(50, "slurs");
        Count(solver => !solver.Best.Licks.IsEmpty).Should().BeGreaterThan(9, "licks");
        Count(solver => solver.Lattice.Grid.Tree.Children.Any(after => after.Length > 1))
            .Should()
            .BeGreaterThan(50, "two endings");
        Count(solver => solver.Overlay.SeamTargets.Count > 0).Should().BeGreaterThan(40, "repeats that join");
        Count(solver => solver.Lattice.Grid.Steps.Any(step => step.IsBetween))
            .Should()
            .BeGreaterThan(50, "short steps");
    }
}
