using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Tests.Locking;

/// <summary>What can be asked of a step or a phrase besides a note: a slur, a pinch, a finger, a way of playing.</summary>
public class SoundingLockTests
{
    private static readonly Lazy<Arrangement> Mixed = new(() => Arrange("mixed"));

    [Fact]
    public void Wherever_a_slur_can_be_there_is_one_when_asked() =>
        AskedEverywhere(
            step => new SlurLock(step),
            (made, step) => made.PathAt(step) is { SlurString: not 0 } or { HalfSlur: not null }
        );

    [Fact]
    public void Wherever_a_pinch_can_be_there_is_one_when_asked() =>
        AskedEverywhere(step => new PinchLock(step), (made, step) => made.PathAt(step).Event.Plucks.Length > 1);

    [Theory]
    [InlineData(RightFinger.T)]
    [InlineData(RightFinger.I)]
    [InlineData(RightFinger.M)]
    public void Wherever_a_finger_can_pluck_it_does_when_asked(RightFinger finger) =>
        AskedEverywhere(
            step => new FingerLock(step, finger),
            (made, step) => made.PathAt(step).Event.Plucks.Any(pluck => pluck.Finger == finger)
        );

    [Theory]
    [InlineData("roll", 0)]
    [InlineData("melodic", 1)]
    public void A_phrase_is_played_in_the_way_asked_for(string way, int manner)
    {
        var made = Mixed.Value;
        var locks = LockReader.Read($"1-2 way {way}", made);
        var changed = made.With(locks);
        for (var step = locks[0].First; step <= locks[0].Last; step++)
            changed.PathAt(step).Manner.Should().Be(manner);
        Checker.Check(changed.Break).Should().BeEmpty();
    }

    [Fact]
    public void A_style_with_one_way_refuses_to_choose_and_says_what_to_take() =>
        FluentActions
            .Invoking(() => LockReader.Read("1-2 way melodic", Arrange("roll")))
            .Should()
            .Throw<ArrangeException>()
            .WithMessage("*take the mixed style*");

    // At every step of the first part; where hands cannot do it, that is said.
    private static void AskedEverywhere(Func<int, Lock> ask, Func<Arrangement, int, bool> isSo)
    {
        var made = Mixed.Value;
        var done = 0;
        for (var step = 0; step < 24; step++)
        {
            try
            {
                var changed = made.With(ask(step));
                isSo(changed, step).Should().BeTrue($"step {step} was asked");
                Checker.Check(changed.Break).Should().BeEmpty();
                done++;
            }
            catch (ArrangeException)
            {
                // Hands cannot do it there.
            }
        }
        done.Should().BeGreaterThan(4);
    }

    private static Arrangement Arrange(string style)
    {
        var file = Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");
        return Arranger.Arrange(
            AbcReader.Read(File.ReadAllBytes(file), file).Tunes[0],
            new() { Style = StyleTable.Find(style), Level = 4 }
        );
    }
}
