using CsCheck;
using Rollwright.Arranging.Backup;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Backup;

public class BackupTests
{
    private static readonly Gen<Arrangement> Breaks = Gen.Select(TuneGenerator.Tunes(4), Gen.Int[0, 4])
        .Select((tune, capo) => Make(tune, capo));

    private static Arrangement Make(Music.Tunes.Tune tune, int capo)
    {
        try
        {
            return Arranger.Arrange(tune, new() { Style = StyleTable.Roll, Capo = capo });
        }
        catch (ArrangeException)
        {
            return Arranger.Arrange(tune, new() { Style = StyleTable.Roll });
        }
    }

    [Fact]
    public void Backup_in_rolls_can_be_played_at_every_level() =>
        Gen.Select(Breaks, Gen.Int[1, 5])
            .Sample(
                (made, level) =>
                {
                    var part = made.BackupPart(BackupKind.Rolls, level);
                    part.Break.Setting.Should().Be(made.Break.Setting);
                    Checker.Check(part.Break).Should().BeEmpty();
                },
                iter: 40
            );

    [Fact]
    public void A_vamp_can_be_played_and_its_pinches_are_closed_chords_of_the_moment()
    {
        int held = 0,
            refused = 0;
        Gen.Select(Breaks, Gen.Int[1, 5])
            .Sample(
                (made, level) =>
                {
                    Arrangement part;
                    try
                    {
                        part = made.BackupPart(BackupKind.Vamp, level);
                    }
                    catch (ArrangeException e)
                    {
                        e.Message.Should().Contain("cannot be held as a vamp").And.Contain("choose a higher level");
                        Interlocked.Increment(ref refused);
                        return;
                    }
                    Interlocked.Increment(ref held);
                    Checker.Check(part.Break).Should().BeEmpty();
                    for (var step = 0; step < part.Grid.Steps.Length; step++)
                        HoldsChord(part, step);
                },
                iter: 40
            );
        held.Should().BeGreaterThan(refused);
    }

    private static void HoldsChord(Arrangement part, int step)
    {
        var done = part.PathAt(step);
        done.SlurString.Should().Be(0);
        if (!done.Event.IsPinch)
        {
            done.Event.Plucks.Should().OnlyContain(pluck => pluck.Finger == RightFinger.T);
            return;
        }
        var chord = part.Grid.Steps[step].Chord!.Value;
        foreach (var (_, on) in done.Event.Plucks)
        {
            var fret = done.Shape.FretOn(on);
            fret.Should().BeGreaterThan(0, "an open string is not closed");
            chord
                .Contains(part.Break.Setting.Tuning.KeyOf(on, fret))
                .Should()
                .BeTrue($"string {on} fret {fret} is a tone of {chord} in {part.Break.Setting.Tuning.Id}");
        }
    }
}
