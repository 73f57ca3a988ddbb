using Rollwright.Arranging.Chording;
using Rollwright.Formats.Abc;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Chording;

public class ChordFinderTests
{
    [Fact]
    public void A_melody_of_chord_tones_gets_those_chords()
    {
        var tune = AbcReader.Read("X:1\nT:Plain\nM:4/4\nL:1/4\nK:G\nGBdB|cegc|dfad|GBG2|\n", "t.abc").Tunes[0];
        var found = ChordFinder.WithChords(tune);
        found.Bars.Select(bar => bar.Chords[0].Chord.ToString()).Should().Equal("G", "C", "D", "G");
    }

    [Fact]
    public void Half_the_chords_of_people_or_more_are_found_again()
    {
        // Outside reference: the chord symbols of the shared tunes that have them, half bar by half bar.
        var (same, all) = (0, 0);
        foreach (var file in Directory.GetFiles(Places.NeedShared("tunes"), "*.abc"))
        {
            var tune = AbcReader.Read(File.ReadAllBytes(file), Path.GetFileName(file)).Tunes[0];
            if (!tune.HasChords)
                continue;
            var bare = tune with { Bars = [.. tune.Bars.Select(bar => bar with { Chords = [] })] };
            foreach (var (people, ours) in ByHalfBar(tune).Zip(ByHalfBar(ChordFinder.WithChords(bare))))
            {
                if (people is null)
                    continue;
                all++;
                same += people.Value.Root.PitchClass == ours!.Value.Root.PitchClass ? 1 : 0;
            }
        }
        ((double)same / all).Should().BeGreaterThan(0.5, $"{same} of {all} half bars have the same root");
    }

    private static IEnumerable<Chord?> ByHalfBar(Tune tune)
    {
        Chord? now = null;
        foreach (var bar in tune.Bars)
        {
            foreach (var half in new[] { Fraction.Zero, bar.Length * new Fraction(1, 2) })
            {
                foreach (var change in bar.Chords.Where(change => change.At <= half))
                    now = change.Chord;
                yield return now;
            }
        }
    }
}
