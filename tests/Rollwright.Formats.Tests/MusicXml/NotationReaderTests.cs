using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Messages;
using Rollwright.Formats.MusicXml;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.MusicXml;

/// <summary>Plain notation; the elements are those of MusicXML 4.0 (W3C Music Notation Community Group).</summary>
public class NotationReaderTests
{
    [Fact]
    public void The_notes_of_a_break_that_was_written_are_read_from_its_notation() =>
        BreakGenerator.Breaks.Sample(
            written =>
            {
                var reading = NotationReader.Read(MusicXmlWriter.Write(written), "break.musicxml");
                reading.Messages.Should().BeEmpty();
                Attacks(reading.Tune!)
                    .Should()
                    .Equal(
                        written.Played().Select(stroke => (stroke.At, written.KeyOf(stroke.Stroke))).Distinct().Order()
                    );
                reading.Tune!.Order.Should().Equal(written.Order);
                reading.Key.Should().Be(written.Setting.SoundingKey);
            },
            iter: 60
        );

    // A pickup, a dotted note, a triplet, a tie over the bar line, a rest, a repeat.
    private static readonly string Melody = Score(
        Measure(
            Head("<key><fifths>-1</fifths><mode>minor</mode></key>", "3", "4"),
            Note("A", 4, 12),
            "<barline location=\"right\"><bar-style>light-light</bar-style></barline>"
        ),
        Measure(
            "<barline location=\"left\"><repeat direction=\"forward\"/></barline>",
            Note("D", 5, 18),
            Note("E", 5, 6),
            Note("F", 5, 12, "<tie type=\"start\"/>")
        ),
        Measure(
            Note("F", 5, 12, "<tie type=\"stop\"/>"),
            Note("E", 5, 4),
            Note("D", 5, 4),
            Note("C", 5, 4, alter: 1),
            "<note><rest/><duration>12</duration></note>",
            "<barline location=\"right\"><repeat direction=\"backward\"/></barline>"
        )
    );

    [Fact]
    public void A_melody_is_read_with_its_form()
    {
        var reading = NotationReader.Read(Melody, "melody.musicxml");
        reading.Messages.Should().BeEmpty();
        var tune = reading.Tune!;
        reading.Key.Should().Be(new Key(new(Letter.D), Mode.Minor));
        tune.Time.Should().Be(new TimeSignature(3, 4));
        tune.Bars.Select(bar => bar.IsPartial).Should().Equal(true, false, false);
        tune.Order.Should().Equal(0, 1, 2, 1, 2);
        tune.Played()
            .Take(7)
            .Select(note => (note.At, note.Length, $"{note.Pitch}"))
            .Should()
            .Equal(
                (Fraction.Zero, new(1, 4), "A4"),
                (new(1, 4), new(3, 8), "D5"),
                (new(5, 8), new(1, 8), "E5"),
                (new(3, 4), new(1, 2), "F5"),
                (new(5, 4), new(1, 12), "E5"),
                (new(4, 3), new(1, 12), "D5"),
                (new(17, 12), new(1, 12), "C#5")
            );
    }

    [Fact]
    public void Chords_in_notes_and_second_voices_stand_together_from_the_lowest()
    {
        var text = Score(
            Measure(
                Head("", "4", "4"),
                Note("G", 4, 24),
                Note("B", 4, 24).Replace("<note>", "<note><chord/>", StringComparison.Ordinal),
                Note("A", 4, 24),
                "<backup><duration>48</duration></backup>",
                Note("D", 4, 48)
            )
        );
        var reading = NotationReader.Read(text, "chords.musicxml", new(Voice: ScoreChoice.AllVoices));
        reading.Key.Should().BeNull("no key is written");
        reading
            .Tune!.Bars[0]
            .Notes.Select(note => (note.At, note.Length, $"{note.Pitch}"))
            .Should()
            .Equal(
                (Fraction.Zero, new(1, 2), "D4"),
                (Fraction.Zero, new(1, 2), "G4"),
                (Fraction.Zero, new(1, 2), "B4"),
                (new(1, 2), new(1, 2), "A4")
            );
    }

    [Fact]
    public void A_tied_note_that_another_voice_cut_off_is_not_struck_again()
    {
        var text = Score(
            Measure(
                Head("", "2", "4"),
                Note("G", 4, 12),
                Note("A", 4, 12),
                "<backup><duration>24</duration></backup>",
                Note("D", 4, 24, "<tie type=\"start\"/>")
            ),
            Measure(
                Note("B", 4, 24),
                "<backup><duration>24</duration></backup>",
                Note("D", 4, 24, "<tie type=\"stop\"/>")
            )
        );
        Attacks(NotationReader.Read(text, "held.musicxml").Tune!)
            .Should()
            .Equal((Fraction.Zero, 62), (Fraction.Zero, 67), (new(1, 4), 69), (new(1, 2), 71));
    }

    // A part written a major second above its sound (a B flat instrument): its C sounds as B flat.
    [Fact]
    public void Transposing_parts_are_read_as_they_sound()
    {
        var text = Score(
            Measure(
                Head("<key><fifths>0</fifths><mode>major</mode></key>", "4", "4")
                    .Replace(
                        "</attributes>",
                        "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>",
                        StringComparison.Ordinal
                    ),
                Note("C", 5, 48)
            )
        );
        var reading = NotationReader.Read(text, "b-flat.musicxml");
        $"{reading.Tune!.Bars[0].Notes[0].Pitch}".Should().Be("Bb4");
        reading.Key.Should().Be(new Key(new(Letter.B, -1)));
    }

    [Fact]
    public void A_part_can_be_chosen_by_id_or_name()
    {
        var two = Melody.Replace(
            "</score-partwise>",
            "<part id=\"P2\">" + Measure(Head("", "4", "4"), Note("C", 4, 48)) + "</part></score-partwise>",
            StringComparison.Ordinal
        );
        NotationReader.Read(two, "two.musicxml", new("P2")).Tune!.Played().Should().ContainSingle();
        NotationReader.Read(two, "two.musicxml", new("fiddle")).Tune!.Bars.Should().HaveCount(3);
        NotationReader.Read(two, "two.musicxml").Messages.Single().Severity.Should().Be(Severity.Note);
        var none = NotationReader.Read(two, "two.musicxml", new("flute"));
        none.Tune.Should().BeNull();
        none.Messages.Single().ToString().Should().Contain("no part is called 'flute'").And.Contain("Fiddle, P2");
    }

    [Theory]
    [InlineData("", "this is no XML, or broken XML")]
    [InlineData("<html/>", "<html> is no score")]
    [InlineData(
        "<score-partwise><part id=\"P1\"><measure/></part></score-partwise>",
        "no note of the score has a pitch"
    )]
    public void What_holds_no_notes_is_refused_with_a_remedy(string text, string what)
    {
        var reading = NotationReader.Read(text, "bad.musicxml");
        reading.Tune.Should().BeNull();
        var message = reading.Messages.Should().ContainSingle().Subject;
        message.What.Should().Be(what);
        message.Remedy.Should().NotBeEmpty();
    }

    [Fact]
    public void A_note_that_cannot_be_is_said_with_its_line_and_left_out()
    {
        var text = Score(Measure(Head("", "4", "4"), Note("H", 5, 24), Note("C", 5, 24)));
        var reading = NotationReader.Read(text, "h.musicxml");
        reading.Messages.Single().Should().Match<Message>(said => said.Severity == Severity.Error && said.Line > 1);
        reading.Tune!.Played().Should().ContainSingle();
    }

    [Fact]
    public void No_text_makes_the_reader_throw() =>
        Gen.Select(
                Gen.OneOf(Gen.Const(Melody), Gen.Const(MusicXmlWriter.Write(SampleBreaks.SmallCapo2))),
                Gen.Double[0, 1],
                Gen.Int[0, 40],
                Gen.String[Gen.Char["<>/&;\"0123456789-adeinst \u0001"], 0, 5]
            )
            .Sample(
                (text, share, gone, put) =>
                {
                    var at = (int)(share * (text.Length - 1));
                    var mutated = text[..at] + put + text[Math.Min(text.Length, at + gone)..];
                    var reading = NotationReader.Read(mutated, "f.xml");
                    reading.Tune?.Played();
                    return reading.Tune is not null || !reading.Messages.IsEmpty;
                },
                iter: 1000
            );

    private static string Score(params string[] measures) =>
        "<score-partwise version=\"4.0\">\n<part-list><score-part id=\"P1\"><part-name>Fiddle</part-name></score-part>"
        + $"</part-list>\n<part id=\"P1\">\n{string.Join('\n', measures)}\n</part></score-partwise>";

    private static string Measure(params string[] elements) => $"<measure>\n{string.Join('\n', elements)}\n</measure>";

    // 12 divisions a quarter.
    private static string Head(string key, string beats, string unit) =>
        $"<attributes><divisions>12</divisions>{key}<time><beats>{beats}</beats><beat-type>{unit}</beat-type></time></attributes>";

    private static string Note(string step, int octave, int duration, string tie = "", int alter = 0) =>
        $"<note><pitch><step>{step}</step><alter>{alter}</alter><octave>{octave}</octave></pitch>"
        + $"<duration>{duration}</duration>{tie}</note>";

    private static IEnumerable<(Fraction At, int Key)> Attacks(Tune tune) =>
        tune.Played().Select(note => (note.At, note.Pitch.Midi)).Order();
}
