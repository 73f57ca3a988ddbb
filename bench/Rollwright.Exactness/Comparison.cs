using System.Diagnostics;
using Google.OrTools.Sat;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Tests.Exact;

namespace Rollwright.Exactness;

/// <summary>The arranger's solver and CP-SAT on the same small questions, one after the other in one run, a thread each.</summary>
internal static class Comparison
{
    private const int WarmUps = 5;
    private const int Rounds = 15;

    /// <param name="Ours">Seconds of the arranger's solver: from the lattice to the path, median of the rounds.</param>
    /// <param name="OursWhole">Seconds from the tune to the path: steps, lattice, prices too, for every solution that it takes.</param>
    /// <param name="Theirs">Seconds of CP-SAT's search, once; the model stands already.</param>
    private sealed record Times(double Ours, double OursWhole, double Theirs)
    {
        public double Ratio => Theirs / Ours;
    }

    /// <summary>Asks that many questions and prints the medians.</summary>
    /// <returns>0; 1 where an answer differs or is not proven.</returns>
    public static int Run(int count)
    {
        var times = new List<Times>();
        for (var number = 0; number < count; number++)
        {
            var question = SmallQuestion.Of(number);
            var solver = question.Solve();
            var model = ExactModel.Of(solver.Lattice, solver.Overlay);
            var started = Stopwatch.GetTimestamp();
            var proven = model.Solve();
            var theirs = Stopwatch.GetElapsedTime(started).TotalSeconds;
            if (proven.Status != CpSolverStatus.Optimal || proven.Total != solver.Best.Total)
            {
                Console.Error.WriteLine($"{question}: {solver.Best.Total}, but CP-SAT says {proven}");
                return 1;
            }
            times.Add(
                new(Seconds(() => Solver.Open(solver.Lattice, solver.Overlay)), Seconds(() => question.Solve()), theirs)
            );
        }
        Console.WriteLine($"{count} questions, every optimum equal and proven. Medians:");
        Console.WriteLine($"  arranger, from the lattice to the path  {1e6 * Median(times, time => time.Ours):0} µs");
        Console.WriteLine(
            $"  arranger, from the tune to the path     {1e6 * Median(times, time => time.OursWhole):0} µs"
        );
        Console.WriteLine($"  CP-SAT, from the model to the proof     {1e3 * Median(times, time => time.Theirs):0} ms");
        Console.WriteLine(
            $"  CP-SAT takes {Median(times, time => time.Ratio):#,0} times as long"
                + $" (a tenth of the questions: {Quantile(times, time => time.Ratio, 0.1):#,0} times or less)"
        );
        return 0;
    }

    private static double Seconds(Action solve)
    {
        for (var i = 0; i < WarmUps; i++)
            solve();
        var rounds = new double[Rounds];
        for (var i = 0; i < Rounds; i++)
        {
            var started = Stopwatch.GetTimestamp();
            solve();
            rounds[i] = Stopwatch.GetElapsedTime(started).TotalSeconds;
        }
        Array.Sort(rounds);
        return rounds[Rounds / 2];
    }

    private static double Median(List<Times> times, Func<Times, double> of) => Quantile(times, of, 0.5);

    private static double Quantile(List<Times> times, Func<Times, double> of, double share) =>
        times.Select(of).Order().ElementAt((int)(share * (times.Count - 1)));
}
