using Rollwright.Music.Chords;
using Rollwright.Music.Pitches;

namespace Rollwright.Music.Tests.Chords;

public class ChordNumberTests
{
    // Degrees as any textbook of harmony has them.
    [Theory]
    [InlineData("G", "G", "1", "I")]
    [InlineData("C", "G", "4", "IV")]
    [InlineData("D7", "G", "57", "V7")]
    [InlineData("Em", "G", "6m", "vi")]
    [InlineData("Bm7", "G", "3m7", "iii7")]
    [InlineData("F", "G", "b7", "bVII")]
    [InlineData("C#", "G", "#4", "#IV")]
    [InlineData("F#dim", "G", "7dim", "viidim")]
    [InlineData("Eb", "Bb", "4", "IV")]
    [InlineData("G", "E", "b3", "bIII")]
    [InlineData("B", "E", "5", "V")]
    [InlineData("G#m", "E", "3m", "iii")]
    public void A_chord_has_its_number_in_the_key(string chord, string tonic, string arabic, string roman)
    {
        var (read, key) = (Chord.Parse(chord)!.Value, PitchName.Parse(tonic)!.Value);
        $"{ChordNumber.Of(read, key, NumberStyle.Arabic)}".Should().Be(arabic);
        $"{ChordNumber.Of(read, key, NumberStyle.Roman)}".Should().Be(roman);
    }
}
