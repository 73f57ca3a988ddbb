using System.Collections.Immutable;
using CsCheck;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Hands;
using Rollwright.Listening.Takes;
using Rollwright.Listening.Tests.Beside;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.TestKit;
using Moment = Rollwright.Listening.Takes.Moment;

namespace Rollwright.Listening.Tests.Hands;

/// <summary>Hands found for notes that are known: breaks that the arranger made of tunes by chance, so that hands can play them.</summary>
public class HandFinderTests
{
    // Where a step leaves a finger the time to pluck again (data/hands.txt), that is no fault of a take.
    [Theory]
    [InlineData(2, "finger-again")]
    [InlineData(1, "")]
    public void What_comes_out_sounds_as_it_was_played_and_hands_can_play_it(double secondsPerWhole, string allowed) =>
        TuneGenerator
            .Tunes(8)
            .Where(tune => tune.Time == TimeSignature.Common || tune.Time == TimeSignature.Cut)
            .Sample(
                tune =>
                {
                    var meant = Arranger.Arrange(tune, new() { Tuning = TuningTable.OpenG, Capo = 0 }).Break;
                    var moments = PlayedMoments.Of(meant, secondsPerWhole);
                    var heard = TakeWriter.Write(moments, 0, new() { Tuning = TuningTable.OpenG, Capo = 0 }, default);
                    Sounding(heard).Should().Equal(moments.Select(moment => (moment.Onset, Keys(moment.Keys))));
                    Checker.Check(heard.Break!).Where(finding => finding.Rule != allowed).Should().BeEmpty();
                    heard
                        .Notes.Should()
                        .OnlyContain(note => note.String != null && (note.Finger != null) == (note.Slur == null));
                },
                iter: 20
            );

    [Theory]
    [InlineData(0.25, "TT")]
    [InlineData(0.1, "IT")]
    public void A_finger_plucks_at_two_steps_running_where_there_is_time(double step, string fingers)
    {
        // Strings 4, 5, 1, 2, over and over.
        int[] keys = [50, 67, 62, 59];
        var moments = Enumerable
            .Range(0, 64)
            .Select(i => new Moment(0.5 + (step * i), [new([keys[i % 4]], 0)], 1, 1))
            .ToList();
        var heard = TakeWriter.Write(moments, 0, new() { Tuning = TuningTable.OpenG, Capo = 0 }, default);
        heard
            .Notes.Select(note => $"{note.Finger}")
            .Chunk(4)
            .Should()
            .OnlyContain(four => $"{four[0]}{four[1]}" == fingers);
    }

    // What the bank teaches can be heard again: every lick with a pinch, between bars of a roll.
    [Fact]
    public void Every_pinch_of_the_bank_is_given_hands()
    {
        var licks = LickBank
            .BuiltIn.Licks.Where(lick => lick.Tuning == TuningTable.OpenG && !lick.IsInThrees)
            .Where(lick => lick.Steps.Any(step => step.Plucks.Length > 1))
            .ToList();
        licks.Should().NotBeEmpty();
        foreach (var lick in licks)
        {
            var after = 16 + ((lick.Length + 7) / 8 * 8);
            List<Moment> moments =
            [
                .. Enumerable.Range(0, 16).Select(i => Begun(i, 1, Roll[i % 8])),
                .. lick.Steps.SelectMany((step, i) => Begun(step, 16 + i)),
                .. Enumerable.Range(0, 8).Select(i => Begun(after + i, 1, Roll[i])),
            ];
            var heard = TakeWriter.Write(moments, 0, new() { Tuning = TuningTable.OpenG, Capo = 0 }, default);
            Sounding(heard).Should().Equal(moments.Select(moment => (moment.Onset, Keys(moment.Keys))), lick.Name);
            heard.Notes.Should().OnlyContain(note => note.String != null, lick.Name);
        }
    }

    private static readonly int[] Roll = [55, 59, 62, 67, 50, 59, 62, 67];

    private static Moment Begun(double step, double attack, params ImmutableArray<int> keys) =>
        new(0.5 + (0.25 * step), [new(keys, 0)], attack, 1);

    private static IEnumerable<Moment> Begun(LickStep step, int at)
    {
        if (!step.Plucks.IsEmpty)
            yield return Begun(
                at,
                1,
                [.. step.Plucks.Select(note => KeyOf(note.String, note.Fret)).Distinct().Order()]
            );
        if (step.Slur is { } slur)
            yield return Begun(at, 0, KeyOf(slur.String, slur.Fret));
        if (step.HalfSlur is { } half)
            yield return Begun(at + 0.5, 0, KeyOf(half.String, half.Fret));
    }

    private static int KeyOf(int on, int fret) => TuningTable.OpenG.KeyOf(on, fret);

    [Fact]
    public void A_break_played_with_the_capo_is_written_with_the_capo()
    {
        var meant = ChanceBreaks.Make(3);
        var moments = PlayedMoments.Of(meant).Select(moment => Higher(moment, 2)).ToList();
        var heard = TakeWriter.Write(moments, 0, new(), default);
        heard.Break!.Setting.Capo.Should().Be(2);
        heard.Break.Setting.Tuning.Should().Be(TuningTable.OpenG);
    }

    // With the capo at 7 all of it but one note would lie on open strings, and the short one would never sound.
    [Fact]
    public void Rolls_in_C_position_are_not_written_without_the_short_string()
    {
        var meant = new Break
        {
            Title = "In C position",
            Setting = new(TuningTable.OpenG, 2, new Key(new PitchName(Letter.C)), -12),
            Time = TimeSignature.Cut,
            Tempo = new(new Fraction(1, 2), 80),
            Bars =
            [
                .. Enumerable
                    .Repeat("2.5I 3.0T 5.0T 1.2M 2.5I 5.0T 1.2M 3.5I 5.0T 2.5I 1.2M 5.0T 2.5I 1.2M 5.0T 3.0T", 4)
                    .SelectMany(two => two.Split(' ').Chunk(8))
                    .Select(bar => SampleBreaks.Bar(string.Join(' ', bar), new())),
            ],
        };
        var heard = TakeWriter.Write(PlayedMoments.Of(meant), 0, new(), default);
        heard.Break!.Setting.Capo.Should().Be(2);
    }

    [Fact]
    public void Notes_that_no_hand_reaches_are_told_without_hands()
    {
        Moment[] moments =
        [
            new(0.5, [new([30], 0)], 1, 1),
            new(0.8, [new([31], 0)], 1, 1),
            new(1.1, [new([30], 0)], 1, 1),
        ];
        var heard = TakeWriter.Write(moments, 0, new(), default);
        heard.Notes.Select(note => note.Pitch).Should().Equal(30, 31, 30);
        heard.Notes.Should().OnlyContain(note => note.String == null);
        heard.Break.Should().BeNull();
    }

    private static string Keys(IEnumerable<int> keys) => string.Join(' ', keys.Order());

    private static IEnumerable<(double, string)> Sounding(Heard heard) =>
        heard
            .Notes.GroupBy(note => note.Onset)
            .Select(together => (together.Key, Keys(together.Select(note => note.Pitch).Distinct())));

    private static Moment Higher(Moment moment, int semitones) =>
        moment with
        {
            Ways = [.. moment.Ways.Select(way => way with { Keys = [.. way.Keys.Select(key => key + semitones)] })],
        };
}
