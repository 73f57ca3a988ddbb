using System.Collections.Immutable;
using Rollwright.Arranging.Chording;
using Rollwright.Formats.Abc;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Tests.Chording;

/// <summary>Outside reference: people's chords for open tunes, beat by beat.</summary>
public class ChordAgreementTests(ITestOutputHelper output)
{
    [Fact]
    public void People_of_the_held_out_half_agree_on_73_beats_of_100_or_more() =>
        Measure(SharedTunes.HeldHalf(), 0.46).Should().BeGreaterThanOrEqualTo(0.73);

    [Fact]
    public void People_of_other_sources_agree_on_75_beats_of_100_or_more() =>
        Measure(SharedTunes.Others(), 0.54).Should().BeGreaterThanOrEqualTo(0.75);

    [Fact]
    public void Sevenths_count_as_their_triads_and_diminished_chords_as_themselves()
    {
        var chords = "G G7 Gmaj7 G6 Gsus4 Gm Gm7 Gdim Gdim7 Gaug G/B"
            .Split(' ')
            .Select(text => Chord.Parse(text)!.Value)
            .ToArray();
        var classes = chords.Select(chord => Array.FindIndex(chords, other => ChordAgreement.IsSame(chord, other)));
        classes.Should().Equal(0, 0, 0, 0, 0, 5, 5, 7, 7, 9, 0);
    }

    [Fact]
    public void Beats_are_counted_from_the_first_chord_on_and_each_has_the_chord_in_force()
    {
        var people = Read("X:1\nM:4/4\nL:1/4\nK:G\nD|\"G\"GGG\"D\"A|AAA\"C\"c|");
        var ours = Read("X:1\nM:4/4\nL:1/4\nK:G\nD|\"G7\"GGGA|\"D\"AAAc|");
        ChordAgreement.Count(people, ours).Should().Be((6, 8));
    }

    // The tonic everywhere shows that beats are counted as they are meant to be.
    private double Measure(ImmutableArray<Tune> tunes, double tonicExpected)
    {
        var (tonic, ours, all) = (0, 0, 0);
        foreach (var tune in tunes)
        {
            var (same, beats) = ChordAgreement.Count(tune, ChordFinder.WithChords(Bare(tune)));
            ours += same;
            all += beats;
            tonic += ChordAgreement.Count(tune, WithTonic(tune)).Same;
        }
        output.WriteLine(
            $"{tunes.Length} tunes, {all} beats: tonic {(double)tonic / all:F3}, ours {(double)ours / all:F3}"
        );
        ((double)tonic / all).Should().BeApproximately(tonicExpected, 0.01);
        return (double)ours / all;
    }

    private static Tune Bare(Tune tune) => tune with { Bars = [.. tune.Bars.Select(bar => bar with { Chords = [] })] };

    private static Tune WithTonic(Tune tune)
    {
        var quality = HarmonyRows.KeyOf(tune.Key.Mode) == 0 ? ChordQuality.Major : ChordQuality.Minor;
        var chord = new ChordAt(Fraction.Zero, new Chord(tune.Key.Tonic, quality));
        return tune with { Bars = [.. tune.Bars.Select(bar => bar with { Chords = [chord] })] };
    }

    private static Tune Read(string text) => AbcReader.Read(text + "\n", "t.abc").Tunes[0];
}
