using System.Collections.Immutable;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Tests.Locking;

/// <summary>A tune of a pickup and four bars of cut time; a triplet in bar 2, for which melodic style alone has steps.</summary>
public class LockCarryingTests
{
    private static readonly Tune Tune = AbcReader
        .Read("X:1\nT:Plain\nM:2/2\nL:1/8\nK:G\nD2|\"G\"G2B2d2B2|\"C\"(3cde c2A2G2|\"D\"d2f2a2f2|\"G\"g4G4|\n", "t.abc")
        .Tunes[0];

    private static Arrangement Make(int level = 3, string style = "roll", ArrangeOptions? options = null) =>
        Arranger.Arrange(
            Tune,
            (
                options
                ?? new()
                {
                    Tuning = TuningTable.OpenG,
                    Capo = 0,
                    Octave = -1,
                }
            ) with
            {
                Level = level,
                Style = StyleTable.Find(style),
            }
        );

    private static (Arrangement Made, ImmutableArray<(Lock Lock, string Why)> LetGo) Carry(
        Arrangement from,
        Arrangement to,
        params string[] texts
    )
    {
        var locked = texts.Aggregate(from, (made, text) => made.With(LockReader.Read(text, made)));
        var carried = LockCarrying.Carry(locked.Locks, locked, to);
        // Nothing is lost without a word.
        (carried.Made.Locks.Length + carried.LetGo.Length)
            .Should()
            .Be(locked.Locks.Length);
        return carried;
    }

    [Fact]
    public void Another_level_keeps_what_hands_can_still_do_and_names_what_they_cannot()
    {
        var highest = LevelTable.Of(1).Bounds.HighestFret;
        var (made, letGo) = Carry(
            Make(3),
            Make(1),
            "1/1 rest",
            $"3/1 note 1.{highest + 2}",
            "2-3 no-slur",
            "4/1 note 1.5"
        );
        letGo
            .Should()
            .ContainSingle()
            .Which.Should()
            .Match<(Lock Lock, string Why)>(one =>
                one.Lock.Words == $"string 1 fret {highest + 2}" && one.Why == "hands cannot do it now"
            );
        made.Locks.Should().HaveCount(3);
        foreach (var kept in made.Locks)
        {
            for (var step = kept.First; step <= kept.Last; step++)
                kept.Allows(step, made.PathAt(step)).Should().BeTrue(kept.Words);
        }
    }

    [Fact]
    public void Another_style_has_other_steps_and_each_lock_stays_at_its_place()
    {
        var (roll, melodic) = (Make(), Make(style: "melodic"));
        melodic
            .Grid.Steps.Length.Should()
            .BeGreaterThan(roll.Grid.Steps.Length, "melodic style has a step for every note");
        string[] texts = ["0/2.5 rest", "3/2 rest", "2-3 frets 5", "4/1 note 1.5"];
        var (made, letGo) = Carry(roll, melodic, texts);
        letGo.Should().BeEmpty();
        made.Locks.Should()
            .BeEquivalentTo(
                texts.SelectMany(text => LockReader.Read(text, melodic)),
                options => options.PreferringRuntimeMemberTypes()
            );
    }

    [Fact]
    public void A_step_that_the_other_style_does_not_have_is_named()
    {
        var melodic = Make(style: "melodic");
        var (made, letGo) = Carry(melodic, Make(), "2/1.17 rest", "4/2 rest");
        letGo.Should().ContainSingle().Which.Why.Should().Be("there is no step there now");
        made.Locks.Should().ContainSingle();
    }

    [Fact]
    public void A_capo_that_moves_the_key_along_changes_nothing_for_the_hands()
    {
        var inA = Make(
            options: new()
            {
                Tuning = TuningTable.OpenG,
                Capo = 2,
                SoundingKey = new Key(new(Letter.A)),
                Octave = -1,
            }
        );
        var (made, letGo) = Carry(Make(), inA, "4/1 note 1.5", "1 keep");
        letGo.Should().BeEmpty();
        made.Break.Setting.Capo.Should().Be(2);
    }

    [Fact]
    public void Frets_of_another_tuning_or_octave_are_let_go_and_what_needs_no_frets_stays()
    {
        var other = Make(options: new() { Tuning = TuningTable.Find("double-c"), Octave = -1 });
        var (made, letGo) = Carry(Make(), other, "4/1 note 1.5", "3/2 rest", "2 no-slur");
        letGo.Should().ContainSingle().Which.Why.Should().Be("the frets have other notes of the tune now");
        made.Locks.Select(kept => kept.Words).Should().Equal("silence", "no slur");
        Carry(
            Make(),
            Make(
                options: new()
                {
                    Tuning = TuningTable.OpenG,
                    Capo = 0,
                    Octave = 0,
                }
            ),
            "4/1 note 1.5"
        )
            .LetGo.Should()
            .ContainSingle();
    }

    [Fact]
    public void A_lick_goes_along_where_it_fits()
    {
        var from = Make();
        var place = Enumerable
            .Range(0, from.Grid.Steps.Length)
            .SelectMany(step => from.LicksAt(step))
            .First(lick => from.WithWhatCanBe([new LickLock(lick)]).LeftOut.IsEmpty);
        var locked = from.With(new LickLock(place));
        var (made, letGo) = LockCarrying.Carry(locked.Locks, locked, Make(4));
        letGo.Should().BeEmpty();
        made.Has(((LickLock)made.Locks.Single()).Place).Should().BeTrue();
    }

    [Fact]
    public void Of_locks_that_do_not_go_together_the_older_stays()
    {
        var made = Make();
        var rest = LockReader.Read("3/1 rest", made);
        var note = LockReader.Read("3/1 note 1.5", made);
        var (kept, leftOut) = made.WithWhatCanBe([.. rest, .. note]);
        kept.Locks.Should().Equal(rest);
        leftOut.Should().Equal(note);
    }
}
