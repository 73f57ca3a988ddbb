using System.Collections.Immutable;
using CsCheck;
using Rollwright.Arranging.Chording;
using Rollwright.Formats.Abc;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Chording;

public class ChordFinderTests(ITestOutputHelper output)
{
    [Fact]
    public void A_melody_of_chord_tones_gets_those_chords()
    {
        var found = ChordFinder.WithChords(Read("X:1\nT:Plain\nM:4/4\nL:1/4\nK:G\nGBdB|cegc|dfad|GBG2|\n"));
        ChordAgreement
            .ByBeat(found)
            .Where((_, beat) => beat % 4 == 0)
            .Select(chord => chord.ToString())
            .Should()
            .Equal("G", "C", "D", "G");
    }

    // Common practice, no source: the pickup is played before the accompaniment comes in.
    [Fact]
    public void Every_part_shows_its_chord_at_its_start_and_the_first_pickup_has_none()
    {
        var found = ChordFinder.WithChords(
            Read("X:1\nM:4/4\nL:1/8\nK:D\nAG|:F2A2 d2f2|e2c2 A2c2|d4 d2:|\n|:fg|a2f2 d2f2|e2c2 A2c2|d4 d2:|\n")
        );
        found.Bars[0].Chords.Should().BeEmpty();
        found.Bars.Where(bar => bar.Marks.RepeatStart).Should().OnlyContain(bar => bar.Chords[0].At == Fraction.Zero);
        found.Bars[5].Chords[0].At.Should().Be(Fraction.Zero);
    }

    [Fact]
    public void Moving_tune_and_key_moves_the_chords() =>
        Gen.Select(TuneGenerator.Tunes(12), Gen.Int[-3, 3], Gen.Int[-2, 2])
            .Sample(
                (tune, fifths, octaves) =>
                {
                    var moved = Moved(tune, fifths, octaves);
                    return Symbols(ChordFinder.WithChords(moved))
                        .SequenceEqual(
                            Symbols(ChordFinder.WithChords(tune))
                                .Select(chord => chord with { Chord = chord.Chord.TransposeFifths(fifths) })
                        );
                },
                iter: 200
            );

    [Fact]
    public void A_part_written_out_twice_gets_the_same_chords_twice() =>
        TuneGenerator
            .Tunes(8)
            .Sample(
                tune =>
                {
                    ImmutableArray<TuneBar> once =
                    [
                        .. tune.Bars.Select(bar => bar with { Marks = BarMarks.None, Chords = [] }),
                    ];
                    var found = ChordFinder.WithChords(tune with { Bars = [.. once, .. once] });
                    var beats = ChordAgreement.ByBeat(found).ToArray();
                    return beats.Take(beats.Length / 2).SequenceEqual(beats.Skip(beats.Length / 2));
                },
                iter: 200
            );

    [Fact]
    public void The_same_tune_gets_the_same_chords_again() =>
        TuneGenerator
            .Tunes(8)
            .Sample(
                tune => Symbols(ChordFinder.WithChords(tune)).SequenceEqual(Symbols(ChordFinder.WithChords(tune))),
                iter: 100
            );

    // A second implementation: of a tune of four beats every way is walked, 24^4 of them.
    [Fact]
    public void Chances_are_those_of_walking_every_way()
    {
        var tune = Read("X:1\nM:2/4\nL:1/8\nK:Em\n|:EB|dB:|[K:G]|GB|d2|\n");
        var beats = BeatLine.Of(tune).Beats;
        var model = ChordModel.BuiltIn;
        var scores = beats.Select(model.Scores).ToArray();
        var sums = beats.Select(_ => new double[Triad.Count]).ToArray();
        var way = new int[beats.Length];
        Walk(0, 1);
        var believed = model.Believe(beats);
        for (var i = 0; i < beats.Length; i++)
        {
            for (var triad = 0; triad < Triad.Count; triad++)
                believed.At(i)[triad].Should().BeApproximately(sums[i][triad] / sums[i].Sum(), 1e-9);
        }

        void Walk(int at, double weight)
        {
            if (at == beats.Length)
            {
                for (var i = 0; i < at; i++)
                    sums[i][way[i]] += weight;
                return;
            }
            var beat = beats[at];
            for (var triad = 0; triad < Triad.Count; triad++)
            {
                way[at] = triad;
                var step =
                    beat.Before < 0
                        ? 1
                        : model.StepTo(beat)[
                            Triad.SeenFrom(way[beat.Before], beat.Tonic),
                            Triad.SeenFrom(triad, beat.Tonic)
                        ];
                Walk(at + 1, weight * step * Math.Exp(scores[at][triad]));
            }
        }
    }

    // Our own bounds: what a reader expects of written chords.
    [Fact]
    public void Written_chords_are_few_stand_at_bars_and_halves_and_end_at_home()
    {
        var (changes, onStrong, bars, home, tunes) = (0, 0, 0, 0, 0);
        foreach (var tune in SharedTunes.All("collection/oneills-1850.abc").Where((_, i) => i % 4 == 0))
        {
            var found = ChordFinder.WithChords(tune);
            bars += found.Bars.Length;
            tunes++;
            home += Symbols(found)[^1].Chord.Root.PitchClass == tune.Key.Tonic.PitchClass ? 1 : 0;
            foreach (var bar in found.Bars.Where(bar => !bar.IsPartial))
            {
                changes += bar.Chords.Length;
                onStrong += bar.Chords.Count(chord => chord.At == Fraction.Zero || chord.At * 2 == bar.Length);
            }
        }
        output.WriteLine(
            $"{tunes} tunes: {(double)changes / bars:F2} chords a bar, {(double)onStrong / changes:F3} of them at a bar's "
                + $"start or half, {(double)home / tunes:F3} of the tunes end on the tonic"
        );
        ((double)changes / bars).Should().BeLessThan(1.0);
        ((double)onStrong / changes).Should().BeGreaterThan(0.95);
        ((double)home / tunes).Should().BeGreaterThan(0.8);
    }

    private static ImmutableArray<ChordAt> Symbols(Tune tune) => [.. tune.Bars.SelectMany(bar => bar.Chords)];

    private static Tune Moved(Tune tune, int fifths, int octaves)
    {
        Music.Keys.Key Up(Music.Keys.Key key) => key with { Tonic = PitchName.FromFifths(key.Tonic.Fifths + fifths) };
        return tune with
        {
            Key = Up(tune.Key),
            Bars =
            [
                .. tune.Bars.Select(bar =>
                    bar with
                    {
                        Key = Up(bar.Key),
                        Notes =
                        [
                            .. bar.Notes.Select(note =>
                                note with
                                {
                                    Pitch = Pitch.FromMidi(
                                        note.Pitch.Midi + (7 * fifths) + (12 * octaves),
                                        PitchName.FromFifths(note.Pitch.Name.Fifths + fifths)
                                    ),
                                }
                            ),
                        ],
                    }
                ),
            ],
        };
    }

    private static Tune Read(string text) => AbcReader.Read(text, "t.abc").Tunes[0];
}
