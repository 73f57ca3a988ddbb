using System.Collections.Immutable;
using CsCheck;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Hands;
using Rollwright.Listening.Takes;
using Rollwright.Listening.Tests.Beside;
using Rollwright.Music.Metre;
using Rollwright.TestKit;
using Moment = Rollwright.Listening.Takes.Moment;

namespace Rollwright.Listening.Tests.Hands;

/// <summary>Hands found for notes that are known: breaks that the arranger made of tunes by chance, so that hands can play them.</summary>
public class HandFinderTests
{
    [Fact]
    public void What_comes_out_sounds_as_it_was_played_and_hands_can_play_it() =>
        TuneGenerator
            .Tunes(8)
            .Where(tune => tune.Time == TimeSignature.Common || tune.Time == TimeSignature.Cut)
            .Sample(
                tune =>
                {
                    var meant = Arranger.Arrange(tune, new() { Tuning = TuningTable.OpenG, Capo = 0 }).Break;
                    // Index and middle together without the thumb stand in licks alone; the lattice that listens has none
                    // (docs/listening.md).
                    if (meant.Bars.Any(HasPinchWithoutThumb))
                        return;
                    var moments = Moments(meant);
                    var heard = TakeWriter.Write(moments, 0, new() { Tuning = TuningTable.OpenG, Capo = 0 }, default);
                    Sounding(heard).Should().Equal(moments.Select(moment => (moment.Onset, Keys(moment.Keys))));
                    Checker.Check(heard.Break!).Should().BeEmpty();
                    heard
                        .Notes.Should()
                        .OnlyContain(note => note.String != null && (note.Finger != null) == (note.Slur == null));
                },
                iter: 40
            );

    [Fact]
    public void A_break_played_with_the_capo_is_written_with_the_capo()
    {
        var meant = ChanceBreaks.Make(3);
        var moments = Moments(meant).Select(moment => Higher(moment, 2)).ToList();
        var heard = TakeWriter.Write(moments, 0, new(), default);
        heard.Break!.Setting.Capo.Should().Be(2);
        heard.Break.Setting.Tuning.Should().Be(TuningTable.OpenG);
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

    private static bool HasPinchWithoutThumb(BreakBar bar) =>
        bar
            .Strokes.Where(stroke => stroke.Right is not null)
            .GroupBy(stroke => stroke.At)
            .Any(pinch => pinch.Count() > 1 && pinch.All(stroke => stroke.Right != RightFinger.T));

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

    private static List<Moment> Moments(Break meant)
    {
        var (moments, start) = (new List<Moment>(), Fraction.Zero);
        foreach (var bar in meant.Order)
        {
            foreach (var together in meant.Bars[bar].Strokes.GroupBy(stroke => stroke.At).OrderBy(group => group.Key))
            {
                ImmutableArray<int> keys = [.. together.Select(meant.KeyOf).Distinct().Order()];
                var attack = together.Any(stroke => stroke.Slur is null) ? 1 : 0;
                moments.Add(new(0.5 + (2 * (start + together.Key).ToDouble()), [new(keys, 0)], attack, 1));
            }
            start += meant.Bars[bar].Length;
        }
        return moments;
    }
}
