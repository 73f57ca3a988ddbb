using System.Collections.Immutable;
using Rollwright.Audio;
using Rollwright.Banjo.Breaks;
using Rollwright.Listening.Beside;
using Rollwright.Listening.Beside.Words;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Rollwright.Sound;

namespace Rollwright.Listening.Tests.Beside;

/// <summary>Takes sounded by our own string model: it proves less than another program's sound, and shows more of a real string.</summary>
public class OwnSoundTests
{
    public static TheoryData<int> Seeds => [12, 13];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Notes_changed_and_left_out_are_named_by_their_strokes(int seed)
    {
        var meant = ChanceBreaks.Make(seed);
        var (wrong, missing) = (Pluck(meant, 1), Pluck(meant, 5));
        var bars = meant.Bars.ToArray();
        bars[1] = bars[1] with
        {
            Strokes = bars[1]
                .Strokes.SetItem(wrong, bars[1].Strokes[wrong] with { Fret = bars[1].Strokes[wrong].Fret + 1 }),
        };
        bars[5] = bars[5] with { Strokes = bars[5].Strokes.RemoveAt(missing) };
        var sound = Synth.Render(meant with { Bars = [.. bars] });
        var found = BesideBreak.Compare(sound, meant);
        found.Follows.Should().BeTrue();
        found
            .Notes.Where(note => note.Label != NoteLabel.Ok)
            .Select(note => (note.Note.Name, note.Label))
            .Should()
            .BeEquivalentTo([
                (new StrokeName(1, wrong), NoteLabel.Wrong),
                (new StrokeName(1, wrong), NoteLabel.Wrong),
                (new StrokeName(5, missing), NoteLabel.Missing),
                (new StrokeName(5, missing), NoteLabel.Missing),
            ]);
        found.WorkOn.Should().BeEquivalentTo([1, 5]);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void A_take_with_a_restart_a_drifting_tempo_and_a_repeat_left_out_is_followed(int seed)
    {
        var meant = ChanceBreaks.Make(seed);
        // A once, breaking off after bar 3 and again from bar 1; then B twice; each bar at a tempo of its own.
        int[] order = [0, 1, 2, 0, 1, 2, 3, 8, 9, 10, 11, 12, 13, 14, 15];
        var sound = Sound(meant, order, bar => 0.85 * (1 + (0.08 * Math.Sin(bar))));
        var found = BesideBreak.Compare(sound, meant);
        found.Follows.Should().BeTrue();
        var bars = found.Notes.ToLookup(note => note.Note.Bar, note => note.Label);
        foreach (var bar in order.Distinct().Where(bar => bar >= 8))
            bars[bar].Should().OnlyContain(label => label == NoteLabel.Ok, $"bar {bar}");
        found.Notes.Should().OnlyContain(note => note.Label == NoteLabel.Ok || note.Label == NoteLabel.LeftOut);
        // Of the first part it cannot be told which time through was broken off: no more than one is left out.
        found.Notes.Should().OnlyContain(note => note.Label == NoteLabel.Ok || note.Note.Bar < 8);
        TakeWords.Of(meant, found).Whole.Should().Contain(sentence => sentence.Contains("began again at bar 1"));
    }

    // A plucked note alone at its time whose pitch is not heard around it.
    private static int Pluck(Break meant, int bar)
    {
        var strokes = meant.Bars[bar].Strokes;
        for (var i = 2; i < strokes.Length - 2; i++)
        {
            var key = meant.KeyOf(strokes[i]);
            var around = strokes[(i - 2)..(i + 3)];
            if (
                strokes[i] is { Slur: null, String: not 5 }
                && around[3].Slur is null
                && around.Count(stroke => stroke.At == strokes[i].At) == 1
                && around.Count(stroke => meant.KeyOf(stroke) == key) == 1
                && around.All(stroke => meant.KeyOf(stroke) != key + 1)
            )
                return i;
        }
        throw new InvalidOperationException("no such note: take another seed");
    }

    // Bars one after another, each with its ring over the next.
    private static Samples Sound(Break meant, int[] order, Func<int, double> faster)
    {
        var starts = new List<Fraction> { Fraction.Zero };
        foreach (var bar in meant.Order)
            starts.Add(starts[^1] + meant.Bars[bar].Length);
        var sound = new float[60 * SynthOptions.UsualRate];
        var now = 0.7;
        foreach (var bar in order)
        {
            var tempo = meant.Tempo with { PerMinute = meant.Tempo.PerMinute * faster(bar) };
            var one = Synth.Render(
                meant,
                new()
                {
                    Tempo = tempo,
                    From = starts[bar],
                    To = starts[bar + 1],
                    Tail = 0.5,
                }
            );
            var at = (int)(now * one.Rate);
            for (var i = 0; i < one.Interleaved.Length; i++)
                sound[at + i] += 0.5f * one.Interleaved[i];
            now += (starts[bar + 1] - starts[bar]).ToDouble() * tempo.SecondsPerWhole;
        }
        return new(SynthOptions.UsualRate, 1, [.. sound[..(int)((now + 1) * SynthOptions.UsualRate)]]);
    }
}
