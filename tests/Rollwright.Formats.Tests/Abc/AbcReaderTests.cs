using System.Text;
using Rollwright.Formats.Abc;
using Rollwright.Music.Chords;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Tests.Abc;

/// <summary>Claims by ABC 2.1 (December 2011); the section stands beside each where it is one of the standard.</summary>
public class AbcReaderTests
{
    [Theory]
    [InlineData("G", "G major", 1)]
    [InlineData("Dmix", "D mixolydian", 1)]
    [InlineData("A mix", "A mixolydian", 2)]
    [InlineData("E dor", "E dorian", 2)]
    [InlineData("Amin", "A minor", 0)]
    [InlineData("F#m", "F# minor", 3)]
    [InlineData("Bb", "Bb major", -2)]
    [InlineData("EM", "E minor", 1)]
    [InlineData("G Lydian", "G lydian", 2)]
    [InlineData("Ddorian clef=treble", "D dorian", 0)]
    [InlineData("none", "C major", 0)]
    [InlineData("HP", "A mixolydian", 2)]
    public void Keys_and_modes_are_read_as_in_section_3_1_14(string field, string key, int fifths)
    {
        var read = Read($"K:{field}\nGABc|").Key;
        read.ToString().Should().Be(key);
        read.Fifths.Should().Be(fifths);
    }

    [Theory]
    [InlineData("K:D =c\nc|", "C5")]
    [InlineData("K:D exp _b\nf b|", "F5 Bb5")]
    [InlineData("K:C\n^c c c'|c", "C#5 C#5 C#6 C5")]
    [InlineData("K:G\n=F F|F", "F4 F4 F#4")]
    [InlineData("K:C\n_B-|B B|", "Bb4 B4")]
    [InlineData("K:C octave=-1\nc|", "C4")]
    [InlineData("K:C\n__b ^^f|", "Bbb5 F##5")]
    [InlineData("K:C\nC, c' C,, |", "C3 C6 C2")]
    [InlineData("K:C\n[CEG] +DF+ [eg]|", "G4 F4 G5")]
    [InlineData("K:C\n{gag}c & e2|f", "C5 F5")]
    [InlineData("K:C\nI:propagate-accidentals octave\n^c c c'|", "C#5 C#5 C6")]
    public void Pitches_follow_key_accidentals_and_their_scope(string text, string pitches) =>
        string.Join(' ', Read(text).Played().Select(note => note.Pitch)).Should().Be(pitches);

    [Theory]
    [InlineData("a>b", "3/16 1/16")]
    [InlineData("a>>b", "7/32 1/32")]
    [InlineData("a<b", "1/16 3/16")]
    [InlineData("a > b", "3/16 1/16")]
    [InlineData("a2 a/ a// a/4 a3/2 a3/", "1/4 1/16 1/32 1/32 3/16 3/16")]
    [InlineData("(3abc", "1/12 1/12 1/12")]
    [InlineData("(3:2:4abcd e", "1/12 1/12 1/12 1/12 1/8")]
    [InlineData("(2ab", "3/16 3/16")]
    [InlineData("(4abcd", "3/32 3/32 3/32 3/32")]
    [InlineData("(5abcde", "1/20 1/20 1/20 1/20 1/20")]
    [InlineData("(3::2ab c", "1/12 1/12 1/8")]
    [InlineData("(3a>bc", "1/8 1/24 1/12")]
    [InlineData("[a2c2]3/2", "3/8")]
    [InlineData("a-a b", "1/4 1/8")]
    [InlineData("a-|a b", "1/4 1/8")]
    [InlineData("(ab) .c ~d !trill!e +mf+f Tg ua", "1/8 1/8 1/8 1/8 1/8 1/8 1/8 1/8")]
    public void Lengths_are_exact(string music, string lengths) =>
        string.Join(' ', Read($"L:1/8\nK:C\n{music}|").Played().Select(note => note.Length)).Should().Be(lengths);

    [Fact]
    public void In_compound_time_five_notes_take_the_time_of_three() =>
        Read("M:6/8\nL:1/8\nK:C\n(5abcde|").Played()[0].Length.Should().Be(new Fraction(3, 40));

    [Theory]
    [InlineData("|:A|B:|", "A B A B")]
    [InlineData("A|B:|c|d:|", "A B A B c d c d")]
    [InlineData("A::B:|", "A A B B")]
    [InlineData("|:A|1 B:|2 c|]d", "A B A c d")]
    [InlineData("|:A|[1,3 B:|[2 c:|[4 d|]", "A B A c A B A d")]
    [InlineData("|:A|1-2 B:|3 c||", "A B A B A c")]
    [InlineData("|::A::|B", "A A A B")]
    [InlineData("A||B:|", "A B B")]
    [InlineData("|:A||B:|", "A B A B")]
    [InlineData("|:A|1 B|2 c|]", "A B A c")]
    [InlineData("A|\n:B|c :]d|", "A B c B c d")]
    [InlineData("|:A:|2,4 B|]", "A A B A A B")]
    [InlineData("d|:A|B d:|", "d A B d A B d")]
    [InlineData("P:A\nA|\nP:B\nB:|", "A B B")]
    public void The_form_unfolds_as_in_sections_4_8_to_4_10(string music, string played) =>
        Letters(Read($"K:C\n{music}")).Should().Be(played);

    [Theory]
    [InlineData("AABB", "A A B B")]
    [InlineData("A2(BA)2", "A A B A B A")]
    [InlineData("BA", "B A")]
    [InlineData("A.B.", "A B")]
    public void The_order_of_parts_is_played_as_the_head_asks(string order, string played) =>
        Letters(Read($"P:{order}\nK:C\nP:A\nA|\nP:B\nB|")).Should().Be(played);

    [Fact]
    public void A_part_that_the_order_asks_for_twice_running_gets_a_repeat() =>
        Read("P:AAB\nK:C\nP:A\nA|c|\nP:B\nB|").Bars.Length.Should().Be(3);

    [Fact]
    public void A_tie_over_a_repeat_sign_holds_on_the_pass_that_goes_on()
    {
        var tune = Read("M:2/4\nL:1/4\nK:C\n|:c2|A A-:|A B|A B:|");
        var lengths = tune.Played().Select(note => $"{note.Pitch.Name}{note.Length * 4}");
        string.Join(' ', lengths).Should().Be("C2 A1 A1 C2 A1 A2 B1 A1 B1 A1 B1 A1 B1");
    }

    [Fact]
    public void A_tie_into_a_first_ending_leads_into_the_second_too() =>
        string.Join(' ', Read("M:C\nL:1/4\nK:C\n|:A3 c-|1 c4:|2 c4|]").Played().Select(note => note.Length))
            .Should()
            .Be("3/4 5/4 3/4 5/4");

    [Fact]
    public void Chord_symbols_stand_where_the_next_note_begins()
    {
        var bar = Read("M:C\nL:1/4\nK:G\n\"G\"GA\"Em(C)\"B\"^soft\"c|").Bars[0];
        bar.Chords.Should()
            .Equal(
                new ChordAt(Fraction.Zero, Chord.Parse("G")!.Value),
                new ChordAt(new(1, 2), Chord.Parse("Em")!.Value)
            );
    }

    [Theory]
    [InlineData("Cd", "Cdim")]
    [InlineData("Ca", "Caug")]
    [InlineData("C/e", "C/E")]
    [InlineData("Am7/G", "Am7/G")]
    [InlineData("D7#9", "D7")]
    [InlineData("g", "G")]
    [InlineData("G;Em", "G")]
    [InlineData("(G)", "G")]
    public void Chord_symbols_of_collections_are_read(string symbol, string chord) =>
        Read($"K:C\n\"{symbol}\"c|").Bars[0].Chords.Single().Chord.ToString().Should().Be(chord);

    [Theory]
    [InlineData("Fine")]
    [InlineData("^A")]
    [InlineData("D.C. al fine")]
    public void Other_words_are_no_chords(string words) => Read($"K:C\n\"{words}\"c|").HasChords.Should().BeFalse();

    [Fact]
    public void The_head_says_title_composer_kind_metre_and_tempo()
    {
        var tune = Read(
            "T:Kettle Path, The\nT:Second\nC:M\\'elanie\nR:reel\nM:C|\nQ:\"lively\" 1/2=100\nK:D\nd4|",
            number: 12
        );
        tune.Title.Should().Be("The Kettle Path");
        tune.OtherTitles.Should().Equal("Second");
        tune.Composer.Should().Be("Mélanie");
        (tune.Rhythm, tune.Number, tune.Time).Should().Be(("reel", 12, TimeSignature.Cut));
        tune.Tempo.Should().Be(new Tempo(new(1, 2), 100));
    }

    [Fact]
    public void The_first_voice_is_the_tune()
    {
        var tune = Read("K:C\nV:1\nABc|\nV:2\nEFG|\nV:1\nd|\n[V:2]E|[V:1]e|");
        Letters(tune).Should().Be("A B c d e");
    }

    [Fact]
    public void Metre_and_key_may_change_within_a_line()
    {
        var tune = Read("M:4/4\nL:1/4\nK:C\nCDEF|[K:G][M:3/4]FGA|");
        tune.Bars[1].Key.Should().Be(new Key(new(Letter.G)));
        tune.Bars[1].Time.Should().Be(new TimeSignature(3, 4));
        tune.Bars[1].Notes[0].Pitch.Name.Alter.Should().Be(1);
    }

    [Fact]
    public void Encodings_and_line_ends_do_not_matter()
    {
        const string Text = "X:1\nT:M\u00e9tis\nK:C\nCDE\\\nF|\n";
        byte[][] files =
        [
            Encoding.UTF8.GetBytes(Text),
            [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(Text)],
            Encoding.Latin1.GetBytes(Text),
            Encoding.UTF8.GetBytes(Text.Replace("\n", "\r\n", StringComparison.Ordinal)),
            [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(Text)],
        ];
        foreach (var file in files)
        {
            var tune = AbcReader.Read(file, "tune.abc").Tunes.Single();
            tune.Title.Should().Be("M\u00e9tis");
            tune.Played().Should().HaveCount(4);
        }
    }

    [Fact]
    public void Several_tunes_share_what_the_head_of_the_file_says()
    {
        var reading = AbcReader.Read(
            "M:6/8\n\nX:1\nT:One\nK:G\nGAB|\n\nfree text\n\nX:2\nT:Two\nM:C\nK:D\nd|\n",
            "two.abc"
        );
        reading
            .Tunes.Select(tune => (tune.Number, tune.Title, tune.Time))
            .Should()
            .Equal((1, "One", new TimeSignature(6, 8)), (2, "Two", TimeSignature.Common));
    }

    [Fact]
    public void A_repeat_sign_within_a_bar_parts_it_in_two_and_the_pickup_completes_it()
    {
        var tune = Read("M:C\nL:1/4\nK:C\n|:G|cdef|gag:|");
        string.Join(' ', tune.Bars.Select(bar => bar.Length)).Should().Be("1/4 1 3/4");
        tune.Bars[0].IsPartial.Should().BeTrue();
    }

    private static Tune Read(string text, int number = 1)
    {
        var reading = AbcReader.Read($"X:{number}\n{text}\n", "tune.abc");
        reading.HasErrors.Should().BeFalse(string.Join('\n', reading.Messages));
        return reading.Tunes.Should().ContainSingle().Subject;
    }

    private static string Letters(Tune tune) =>
        string.Join(
            ' ',
            tune.Played()
                .Select(note => note.Pitch.Octave > 4 ? $"{note.Pitch.Name}".ToLowerInvariant() : $"{note.Pitch.Name}")
        );
}
