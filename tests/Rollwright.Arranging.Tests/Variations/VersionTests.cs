using System.Collections.Immutable;
using CsCheck;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Playability;
using Rollwright.TestKit;
using Lock = Rollwright.Arranging.Locks.Lock;
using Version = Rollwright.Arranging.Variations.Version;

namespace Rollwright.Arranging.Tests.Variations;

public class VersionTests
{
    public static TheoryData<string> Versions => [.. Version.All.Select(version => version.Name)];

    [Theory]
    [MemberData(nameof(Versions))]
    public void A_version_differs_by_the_share_it_tells_keeps_the_locks_and_can_be_played(string name) =>
        Gen.Select(TuneGenerator.Tunes(4), Gen.Int[0, 3], Gen.Int[1, 5], Gen.Double[0, 1])
            .Sample(
                (tune, style, level, where) =>
                {
                    var plain = Arranger.Arrange(
                        tune,
                        new() { Style = StyleTable.Solo.ElementAt(style), Level = level }
                    );
                    var step = (int)(where * (plain.Grid.Steps.Length - 1));
                    ImmutableArray<Lock> locks =
                    [
                        new SoundLock(step, plain.PathAt(step)),
                        new NoSlurLock(0, plain.Grid.Steps.Length / 2),
                    ];
                    Arrangement made;
                    try
                    {
                        made = plain.With(locks);
                    }
                    catch (ArrangeException)
                    {
                        // The step that is kept was itself a slur, or a lick's with a slur half-way through it.
                        var kept = plain.PathAt(step);
                        (kept.SlurString > 0 || kept.HalfSlur is not null).Should().BeTrue();
                        return;
                    }
                    var before = new List<Arrangement> { made };
                    foreach (var (version, share) in made.Versions(Version.Find(name)!, 2))
                    {
                        before.Min(other => Otherwise(version, other)).Should().Be(share);
                        share.Should().BeInRange(0, 1);
                        Checker.Check(version.Break).Should().BeEmpty();
                        Kept(version, locks);
                        before.Add(version);
                    }
                },
                iter: 12
            );

    [Fact]
    public void Most_versions_differ_in_the_share_that_was_asked_for()
    {
        int reached = 0,
            all = 0;
        TuneGenerator
            .Tunes(4)
            .Sample(
                tune =>
                {
                    var made = Arranger.Arrange(tune, new() { Style = StyleTable.Roll });
                    foreach (var (_, share) in made.Versions(Version.Find("other-licks")!, 2, 0.3))
                    {
                        Interlocked.Increment(ref all);
                        Interlocked.Add(ref reached, share >= 0.3 ? 1 : 0);
                    }
                },
                iter: 12
            );
        reached.Should().BeGreaterThan(all * 3 / 4);
    }

    // Strings, frets and fingers that begin to sound, compared as the pages show them.
    private static double Otherwise(Arrangement one, Arrangement other)
    {
        var steps = one.Grid.Steps.Length;
        return Enumerable.Range(0, steps).Count(step => !one.PathAt(step).SoundsLike(other.PathAt(step)))
            / (double)steps;
    }

    private static void Kept(Arrangement made, ImmutableArray<Lock> locks)
    {
        made.Locks.Should().Contain(locks);
        foreach (var kept in locks)
        {
            for (var step = kept.First; step <= kept.Last; step++)
                kept.Allows(step, made.PathAt(step)).Should().BeTrue($"{kept.Words} at step {step}");
        }
    }
}
