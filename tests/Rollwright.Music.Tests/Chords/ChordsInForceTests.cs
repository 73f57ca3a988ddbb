using System.Collections.Immutable;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;

namespace Rollwright.Music.Tests.Chords;

public class ChordsInForceTests
{
    private static readonly ChordsInForce Said = new([
        [],
        [At(1, 2, "G")],
        [],
        [At(0, 1, "C"), At(1, 4, "D7"), At(1, 4, "Em")],
        [At(1, 2, "G")],
    ]);

    [Theory]
    [InlineData(0, 0, "")]
    [InlineData(1, 0, "")]
    [InlineData(1, 2, "G")]
    [InlineData(2, 0, "G")]
    [InlineData(3, 0, "C")]
    [InlineData(3, 1, "Em")]
    [InlineData(4, 1, "Em")]
    [InlineData(4, 3, "G")]
    public void A_chord_holds_until_the_next_is_said(int bar, int quarters, string chord) =>
        $"{Said.At(bar, new Fraction(quarters, 4))}".Should().Be(chord);

    [Theory]
    [InlineData(0, "")]
    [InlineData(1, "1/2 G")]
    [InlineData(2, "0 G")]
    [InlineData(3, "0 C, 1/4 D7, 1/4 Em")]
    [InlineData(4, "0 Em, 1/2 G")]
    public void A_bar_by_itself_says_what_goes_on_from_before(int bar, string chords) =>
        string.Join(", ", Said.SaidAnew(bar).Select(at => $"{at.At} {at.Chord}")).Should().Be(chords);

    private static ChordAt At(int n, int d, string chord) => new(new Fraction(n, d), Chord.Parse(chord)!.Value);
}
