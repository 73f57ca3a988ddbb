using CsCheck;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Strokes;
using Rollwright.TestKit;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Tests.Locking;

public class LockTextTests
{
    [Fact]
    public void What_every_step_sounds_comes_back_from_its_text_and_allows_the_same() =>
        Gen.Select(
                TuneGenerator.Tunes(4),
                Gen.OneOf(Gen.Const("roll"), Gen.Const("melodic"), Gen.Const("mixed")),
                Gen.Int[1, 5]
            )
            .Sample(
                (tune, style, level) =>
                {
                    var made = Arranger.Arrange(tune, new() { Style = StyleTable.Find(style), Level = level });
                    var steps = made.Grid.Steps.Length;
                    for (var step = 0; step < steps; step++)
                    {
                        var text = LockText.Write(new SoundLock(step, made.PathAt(step)));
                        var read = LockText.Read(text, made);
                        read.Should().BeOfType<SoundLock>(text);
                        for (var other = 0; other < steps; other++)
                            read!
                                .Allows(other, made.PathAt(other))
                                .Should()
                                .Be(made.PathAt(step).SoundsLike(made.PathAt(other)), text);
                    }
                },
                iter: 30
            );

    [Theory]
    [InlineData("0 sound T3.2p0")]
    [InlineData("0 sound T3.0h2")]
    [InlineData("0 sound T4.2s4 M1.0")]
    public void A_slur_at_once_after_a_pluck_comes_back_with_both_frets(string text)
    {
        var made = Arranger.Arrange(TuneGenerator.Tunes(4).Single());
        LockText.Write(LockText.Read(text, made)!).Should().Be(text);
    }

    [Fact]
    public void Every_other_lock_comes_back_equal()
    {
        var made = Arranger.Arrange(
            TuneGenerator.Tunes(4).Single(),
            new() { Style = StyleTable.Find("mixed"), Level = 4 }
        );
        Lock[] locks =
        [
            new NoteLock(1, 3, 2, RightFinger.T),
            new NoteLock(1, 5, 0),
            new RestLock(2),
            new SlurLock(2),
            new PinchLock(3),
            new FingerLock(4, RightFinger.M),
            new NoSlurLock(0, 7),
            new FretLock(2, 5, 7),
            new WayLock(0, 3, 1, "melodic"),
        ];
        foreach (var kept in locks)
            LockText.Read(LockText.Write(kept), made).Should().Be(kept);
        var shape = new ShapeLock(0, 3, [2, null, 1, 0]);
        LockText
            .Read(LockText.Write(shape), made)
            .Should()
            .BeOfType<ShapeLock>()
            .Which.Frets.Should()
            .Equal(shape.Frets);
        if (made.LicksAt(0) is [var place, ..])
            LockText.Read(LockText.Write(new LickLock(place)), made).Should().Be(new LickLock(place));
    }

    [Theory]
    [InlineData("")]
    [InlineData("x rest")]
    [InlineData("99999 rest")]
    [InlineData("5-2 no-slur")]
    [InlineData("1 dance")]
    [InlineData("1 sound Q3.2")]
    [InlineData("1 sound T9.2")]
    [InlineData("1 note 3.99")]
    [InlineData("1 way 7 roll")]
    [InlineData("1 lick nobody knows it")]
    public void What_is_no_lock_here_is_none(string text) =>
        LockText.Read(text, Arranger.Arrange(TuneGenerator.Tunes(4).Single())).Should().BeNull();
}
