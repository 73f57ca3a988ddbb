using CsCheck;
using Rollwright.Formats.Abc;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.Tests.Abc;

/// <summary>What is added to a tune's text reads back as what was played.</summary>
public class AbcTypingTests
{
    private static readonly Fraction Eighth = new(1, 8);

    private static readonly Gen<(TimeSignature Time, Key Key, (int Midi, Fraction Length)[] Played)> Tunes = Gen.Select(
        One<TimeSignature>(new(4, 4), new(2, 2), new(2, 4), new(3, 4), new(6, 8), new(9, 8)),
        Gen.Select(Gen.Int[-4, 5], One(Mode.Major, Mode.Minor, Mode.Dorian, Mode.Mixolydian))
            .Select((fifths, mode) => new Key(PitchName.FromFifths(fifths), mode)),
        // A rest is midi 0.
        Gen.Select(
            Gen.Frequency((6, Gen.Int[50, 90]), (1, Gen.Const(0))),
            One<Fraction>(new(1, 16), new(1, 8), new(3, 16), new(1, 4), new(3, 8), new(1, 2), new(1))
        ).Array[1, 40]
    );

    private static Gen<T> One<T>(params T[] choices) => Gen.Int[0, choices.Length - 1].Select(i => choices[i]);

    private static string Typed(TimeSignature time, Key key, IEnumerable<(int Midi, Fraction Length)> played) =>
        played.Aggregate(
            AbcTyping.Begin("Test", time, key),
            (text, note) =>
                note.Midi == 0 ? AbcTyping.Rest(text, note.Length) : AbcTyping.Note(text, note.Midi, note.Length)
        );

    private static (Fraction At, Fraction Length, int Midi)[] Read(string text) =>
        [.. AbcReader.Read(text, "test").Tunes[0].Played().Select(note => (note.At, note.Length, note.Pitch.Midi))];

    private static IEnumerable<(Fraction At, Fraction Length, int Midi)> Timed((int Midi, Fraction Length)[] played)
    {
        var at = Fraction.Zero;
        foreach (var (midi, length) in played)
        {
            if (midi > 0)
                yield return (at, length, midi);
            at += length;
        }
    }

    [Fact]
    public void Notes_and_rests_of_any_key_metre_and_length_read_back_as_they_were_played() =>
        Tunes.Sample(
            tune =>
            {
                if (tune.Played.All(note => note.Midi == 0))
                    return;
                var text = Typed(tune.Time, tune.Key, tune.Played);
                Read(text).Should().Equal(Timed(tune.Played), text);
                var reading = AbcReader.Read(text, "test");
                reading.Messages.Should().BeEmpty(text);
                reading.Tunes[0].Bars.SkipLast(1).Should().OnlyContain(bar => bar.Length == tune.Time.Bar, text);
            },
            iter: 300
        );

    [Fact]
    public void Undo_takes_back_what_came_last_whatever_bar_lines_it_brought() =>
        Tunes.Sample(
            tune =>
            {
                if (tune.Played.SkipLast(1).All(note => note.Midi == 0))
                    return;
                // Rests that a bar line cuts in two are two rests.
                var played = tune.Played.Select(note => note.Midi == 0 ? (0, new Fraction(1, 16)) : note).ToArray();
                if (tune.Time.Bar.Denominator > 16)
                    return;
                var text = AbcTyping.Undo(Typed(tune.Time, tune.Key, played));
                Read(text).Should().Equal(Timed(played[..^1]), text);
            },
            iter: 300
        );

    [Theory]
    // Spelling by the signature, accidentals that hold to the bar line, octave marks, lengths relative to L:.
    [InlineData("K:G\n", 66, 1, "K:G\nF")]
    [InlineData("K:G\nF", 65, 1, "K:G\nF=F")]
    [InlineData("K:G\nF=F", 65, 1, "K:G\nF=FF")]
    [InlineData("K:G\nF=F", 66, 1, "K:G\nF=F^F")]
    [InlineData("K:G\nF=F|", 66, 1, "K:G\nF=F|F")]
    [InlineData("K:F\n", 70, 1, "K:F\nB")]
    [InlineData("K:Ador\n", 73, 1, "K:Ador\n^c")]
    [InlineData("K:G\n", 55, 1, "K:G\nG,")]
    [InlineData("K:G\n", 84, 2, "K:G\nc'2")]
    [InlineData("L:1/4\nK:G\n", 67, 1, "L:1/4\nK:G\nG/2")]
    [InlineData("L:1/4\nK:G\n", 67, 3, "L:1/4\nK:G\nG3/2")]
    [InlineData("M:4/4\nL:1/8\nK:G\nGABc", 67, 1, "M:4/4\nL:1/8\nK:G\nGABc G")]
    [InlineData("M:4/4\nL:1/8\nK:G\nGABc defg", 67, 2, "M:4/4\nL:1/8\nK:G\nGABc defg|G2")]
    [InlineData("M:4/4\nL:1/8\nK:G\nGABc def", 67, 4, "M:4/4\nL:1/8\nK:G\nGABc defG-|G3")]
    [InlineData("K:G\nGAB | \n\n", 67, 1, "K:G\nGAB |G")]
    [InlineData("K:G\nGA[K:D]c", 73, 1, "K:G\nGA[K:D]cc")]
    [InlineData("K:G\nGA\nw:la la", 67, 1, "K:G\nGA\nw:la la\nG")]
    public void A_note_is_written_as_the_text_before_it_asks(string text, int midi, int eighths, string after) =>
        AbcTyping.Note("X:1\n" + text, midi, Eighth * eighths).Should().Be("X:1\n" + after);

    [Theory]
    [InlineData("GA", "GA|")]
    [InlineData("GA|", "GA|")]
    [InlineData("", "")]
    public void A_bar_line_ends_a_bar_that_has_begun(string text, string after) =>
        AbcTyping.BarLine("X:1\nK:G\n" + text).Should().Be("X:1\nK:G\n" + after);

    [Theory]
    [InlineData("GA|", "GA")]
    [InlineData("G\"D7\"^A,2", "G")]
    [InlineData("G", "")]
    [InlineData("", "")]
    [InlineData("GABc defG-|G3", "GABc def")]
    [InlineData("GABc dedB|G", "GABc dedB|")]
    [InlineData("GABc dedB|", "GABc ded")]
    [InlineData("[GB]", "[GB]")]
    public void Undo_goes_back_by_what_was_played(string text, string after) =>
        AbcTyping.Undo("X:1\nL:1/8\nK:G\n" + text).TrimEnd().Should().Be(("X:1\nL:1/8\nK:G\n" + after).TrimEnd());

    [Fact]
    public void A_text_without_a_tune_cannot_go_on()
    {
        var type = () => AbcTyping.Note("", 60, Eighth);
        type.Should().Throw<ArgumentException>();
    }
}
