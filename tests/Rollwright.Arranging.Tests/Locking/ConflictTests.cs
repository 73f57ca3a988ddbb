using System.Collections.Immutable;
using CsCheck;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Solving;
using Rollwright.TestKit;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Tests.Locking;

public class ConflictTests
{
    [Fact]
    public void What_is_named_cannot_be_kept_together_and_each_of_it_is_needed()
    {
        var conflicts = 0;
        Gen.Select(TuneGenerator.Tunes(2), Gen.Int)
            .Sample(
                (tune, seed) =>
                {
                    var made = Arranger.Arrange(tune);
                    var lattice = made.Solver.Lattice;
                    var locks = Some(made, new Random(seed));
                    bool Possible(IEnumerable<Lock> some) =>
                        TuneSolver.Solve(lattice, new(lattice.Grid.Steps.Length), [.. some]).Best.IsPossible;
                    if (Possible(locks))
                        return;
                    Interlocked.Increment(ref conflicts);
                    var words = Conflict.Words(lattice, new(lattice.Grid.Steps.Length), locks);
                    // Every lock here is said in words of its own.
                    var named = locks
                        .Where(kept =>
                            words.Contains($": {kept.Words};", StringComparison.Ordinal)
                            || words.Contains($": {kept.Words} and bar", StringComparison.Ordinal)
                        )
                        .ToArray();
                    Possible(named).Should().BeFalse(words);
                    foreach (var kept in named)
                        Possible(named.Where(other => other != kept)).Should().BeTrue($"{words} without {kept.Words}");
                },
                iter: 40
            );
        conflicts.Should().BeGreaterThan(10);
    }

    // Locks on four neighbouring steps, each in words that no other has.
    private static ImmutableArray<Lock> Some(Arrangement made, Random random)
    {
        var first = random.Next(made.Grid.Steps.Length - 4);
        var notes = Enumerable
            .Range(0, 3)
            .Select(i => new NoteLock(
                first + i,
                random.Next(1, 5),
                random.Next(0, 5),
                random.Next(2) == 0 ? null : (Banjo.Strokes.RightFinger)random.Next(3)
            ));
        Lock[] others =
        [
            new FretLock(first, first + 3, random.Next(0, 4)),
            new NoSlurLock(first, first + 3),
            new ShapeLock(first + 1, first + 1, [random.Next(0, 3), null, random.Next(0, 3), null]),
            new RestLock(first + random.Next(4)),
        ];
        return [.. notes.Concat(others.OrderBy(_ => random.Next()).Take(2)).DistinctBy(kept => kept.Words)];
    }
}
