using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Formats.Abc;
using Rollwright.Music.Tunes;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Waits;

/// <summary>What a person at the workbench waits for, over many tunes, warm, on one thread.</summary>
internal static class Survey
{
    private const int Rounds = 3;

    // So many places of each tune are changed, spread over it.
    private const int Edits = 10;

    public static void Run(Style style, int level, string[] files)
    {
        ImmutableArray<Tune> tunes = [.. files.SelectMany(file => AbcReader.Read(File.ReadAllBytes(file), file).Tunes)];
        var options = new ArrangeOptions { Style = style, Level = level };
        Spread solve = new("one setting solved: steps, shapes, prices, exact path, equal bars alike"),
            arrange = new("a whole arrangement, every setting tried"),
            edit = new("solved again after one note is changed, with the break put together"),
            spots = new("all spots of a tune that was just changed"),
            reasons = new("reasons of every step"),
            advice = new("advice: every setting and style solved");
        var sweeps = new Sweeps();
        foreach (var tune in tunes)
        {
            var made = Arranger.Arrange(tune, options);
            for (var round = 0; round < Rounds; round++)
            {
                solve.Take(() => Solve(made, style, level));
                arrange.Take(() => Arranger.Arrange(tune, options));
                sweeps.Take(Lay(made, style, level));
            }
            advice.Take(() => Arranger.Advise(tune, options));
            foreach (var changed in Changes(made))
            {
                if (Try(() => edit.Take(() => made.With(changed))) is { } next)
                    spots.Take(() => next.Spots());
            }
            var asked = Arranger.Arrange(tune, options);
            reasons.Take(() => asked.Reasons);
        }
        Console.WriteLine($"{tunes.Length} tunes, {style.Name}, level {level}, {LickIndex.BuiltIn.Count} licks");
        Console.WriteLine("| what | times | median | 95 of 100 within | longest |\n| --- | --- | --- | --- | --- |");
        foreach (var spread in new[] { solve, arrange, edit, spots, reasons, advice })
            Console.WriteLine(spread);
        Console.WriteLine(sweeps);
    }

    // The next best sound instead, at places spread over the tune.
    private static IEnumerable<Lock> Changes(Arrangement made)
    {
        var steps = made.Reasons.Where(reason => reason.RunnerUp is not null).ToArray();
        for (var i = 0; i < Edits; i++)
        {
            var reason = steps[i * steps.Length / Edits];
            yield return new SoundLock(reason.Step, reason.RunnerUp!.Done);
        }
    }

    // Where the change contradicts the hands there is nothing to wait for.
    private static Arrangement? Try(Func<Arrangement> work)
    {
        try
        {
            return work();
        }
        catch (ArrangeException)
        {
            return null;
        }
    }

    private static StepLattice Lay(Arrangement made, Style style, int level)
    {
        var setting = made.Break.Setting;
        var grid = StepGrid.Lay(made.Tune, setting, style.FollowsTune);
        var at = LevelTable.Of(level);
        return StepLattice.Build(grid, setting, at.Bounds, at.Apply(style));
    }

    private static Solver Solve(Arrangement made, Style style, int level) => TuneSolver.Solve(Lay(made, style, level));
}
