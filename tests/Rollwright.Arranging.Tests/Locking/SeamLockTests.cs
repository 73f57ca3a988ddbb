using CsCheck;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Locking;

public class SeamLockTests
{
    [Fact]
    public void A_finger_that_is_asked_for_at_the_end_of_a_repeat_frees_itself_from_the_beginning()
    {
        var changed = 0;
        Gen.Select(TuneGenerator.Tunes(4).Where(tune => tune.Order.Length > tune.Bars.Length), Gen.Int[0, 3])
            .Sample(
                (tune, style) =>
                {
                    var made = Arranger.Arrange(tune, new() { Style = StyleTable.Solo.ElementAt(style) });
                    var (from, to) = made.Grid.Tree.Seams[0];
                    var (first, last) = (made.Grid.FirstOf(to), made.Grid.Bars[from].End.Value - 1);
                    if (made.PathAt(first).Event.Plucks is not [var (finger, _)])
                        return;
                    // An open string that the finger is at home on.
                    var on =
                        finger == RightFinger.T ? 3
                        : finger == RightFinger.I ? 2
                        : 1;
                    var locked = made.With(new NoteLock(last, on, 0, finger));
                    Checker.Check(locked.Break).Should().BeEmpty();
                    var beginning = locked.PathAt(first).Event.Plucks;
                    beginning.Should().NotContain(pluck => pluck.Finger == finger);
                    Interlocked.Increment(ref changed);
                },
                iter: 25
            );
        changed.Should().BeGreaterThan(10);
    }
}
