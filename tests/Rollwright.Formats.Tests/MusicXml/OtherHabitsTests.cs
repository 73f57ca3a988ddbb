using Rollwright.Formats.Messages;
using Rollwright.Formats.MusicXml;
using Rollwright.Music.Chords;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.Tests.MusicXml;

/// <summary>
/// What other programs write and MusicXML 4.0 allows (W3C Music Notation Community Group). Every score here is valid by the
/// published schema; a test asks it.
/// </summary>
public class OtherHabitsTests
{
    // Divisions that change, that are fractions, and that round a triplet: 341 + 341 + 342 of 1024.
    private static readonly string Divisions = Score(
        Part(
            "P1",
            Measure(
                1,
                Head("1024")
                    + Triplet(341)
                    + Triplet(341)
                    + Triplet(342)
                    + Note("A", 4, "1024", "quarter")
                    + "<attributes><divisions>0.5</divisions></attributes>"
                    + Note("G", 4, "1", "half")
            )
        )
    );

    // A melody above an accompaniment with more notes, on one staff with backup; a forward in the second voice.
    private static readonly string Voices = Score(
        Part(
            "P1",
            Measure(
                1,
                Head("2")
                    + Note("B", 4, "4", "half", 1)
                    + Note("D", 5, "4", "half", 1)
                    + "<backup><duration>8</duration></backup><forward><duration>2</duration></forward>"
                    + Note("G", 3, "2", "quarter", 2)
                    + Note("B", 3, "2", "quarter", 2)
                    + Note("D", 4, "2", "quarter", 2)
            )
        )
    );

    // A clarinet in A, a minor third lower than written; C written is A.
    private static readonly string Transposing = Score(
        Part(
            "P1",
            Measure(
                1,
                Head("1", "<transpose><diatonic>-2</diatonic><chromatic>-3</chromatic></transpose>")
                    + "<harmony><root><root-step>C</root-step></root><kind>dominant-13th</kind></harmony>"
                    + Note("C", 5, "4", "whole")
            )
        )
    );

    private static readonly string Timewise =
        "<?xml version=\"1.0\"?><score-timewise version=\"4.0\"><part-list>"
        + "<score-part id=\"P1\"><part-name>Flute</part-name></score-part><score-part id=\"P2\"><part-name>Bass</part-name></score-part></part-list>"
        + $"<measure number=\"1\"><part id=\"P1\">{Head("1")}{Note("C", 5, "4", "whole")}</part><part id=\"P2\">{Head("1")}{Note("C", 3, "4", "whole")}</part></measure>"
        + $"<measure number=\"2\"><part id=\"P1\">{Note("D", 5, "4", "whole")}</part><part id=\"P2\">{Note("G", 2, "4", "whole")}</part></measure>"
        + "</score-timewise>";

    // Tab at the notation only, a chord diagram, and string 5 counted from its own peg: fret 2 sounds a, the neck's fret 7.
    private static readonly string Peg = Score(
        Part(
            "P1",
            Measure(
                1,
                Head("1")
                    + "<harmony><root><root-step>G</root-step></root><kind>major</kind><frame><frame-strings>5</frame-strings><frame-frets>4</frame-frets><frame-note><string>1</string><fret>0</fret></frame-note></frame></harmony>"
                    + TabNote("A", 4, 5, 2)
                    + TabNote("D", 4, 1, 0)
                    + TabNote("A", 4, 5, 2)
                    + TabNote("G", 4, 5, 0)
            )
        )
    );

    private static readonly string SixStrings = Score(
        Part("P1", Measure(1, Head("4") + TabNote("E", 2, 6, 0) + TabNote("B", 3, 2, 0)))
    );

    private static readonly string TabWithoutFrets = Score(
        Part("P1", Measure(1, Head("1", "<clef><sign>TAB</sign><line>3</line></clef>") + Note("G", 3, "4", "whole")))
    );

    [Fact]
    public void The_scores_of_these_tests_are_valid() =>
        MusicXmlSchema
            .Faults([Divisions, Voices, Transposing, Timewise, Peg, SixStrings, TabWithoutFrets])
            .Should()
            .BeEmpty();

    [Fact]
    public void Divisions_may_change_be_fractions_and_round_triplets() =>
        NotationReader
            .Read(Divisions, "d.musicxml")
            .Tune!.Played()
            .Select(note => (note.At, note.Length))
            .Should()
            .Equal(
                (Fraction.Zero, new(1, 12)),
                (new(1, 12), new(1, 12)),
                (new(1, 6), new(1, 12)),
                (new(1, 4), new(1, 4)),
                (new(1, 2), new(1, 2))
            );

    [Fact]
    public void The_upper_voice_is_the_melody_unless_another_is_asked_for()
    {
        var chosen = NotationReader.Read(Voices, "v.musicxml");
        chosen.Tune!.Played().Select(note => $"{note.Pitch}").Should().Equal("B4", "D5");
        chosen
            .Messages.Single()
            .Should()
            .Match<Message>(said =>
                said.Severity == Severity.Note && said.What.Contains("voice 1 is read as the melody")
            );
        NotationReader
            .Read(Voices, "v.musicxml", new(Voice: "2"))
            .Tune!.Played()
            .Select(note => (note.At, $"{note.Pitch}"))
            .Should()
            .Equal((new(1, 4), "G3"), (new(1, 2), "B3"), (new(3, 4), "D4"));
        NotationReader
            .Read(Voices, "v.musicxml", new(Voice: ScoreChoice.AllVoices))
            .Tune!.Played()
            .Should()
            .HaveCount(5);
        NotationReader.Read(Voices, "v.musicxml", new(Voice: "7")).Messages.Single().Remedy.Should().Contain("1, 2");
    }

    [Fact]
    public void A_transposing_part_is_read_as_it_sounds_its_chords_too()
    {
        var tune = NotationReader.Read(Transposing, "t.musicxml").Tune!;
        tune.Key.Should().Be(new Key(new(Letter.A)));
        tune.Bars[0].Notes.Single().Pitch.Should().Be(new Pitch(new(Letter.A), 4));
        tune.Bars[0].Chords.Single().Chord.Should().Be(Chord.Parse("A9"));
    }

    [Fact]
    public void A_timewise_score_is_read_like_a_partwise_one()
    {
        NotationReader
            .Read(Timewise, "t.musicxml")
            .Tune!.Played()
            .Select(note => $"{note.Pitch}")
            .Should()
            .Equal("C5", "D5");
        NotationReader
            .Read(Timewise, "t.musicxml", new("bass"))
            .Tune!.Played()
            .Select(note => $"{note.Pitch}")
            .Should()
            .Equal("C3", "G2");
    }

    [Fact]
    public void Frets_of_the_short_string_counted_from_its_peg_become_the_necks()
    {
        var reading = MusicXmlReader.Read(Peg, "p.musicxml");
        reading.Break!.Bars[0].Strokes.Select(stroke => stroke.Fret).Should().Equal(7, 0, 7, 0);
        reading.Messages.Should().Contain(said => said.What.Contains("own peg"));
    }

    [Fact]
    public void Tab_of_six_strings_is_no_break_but_has_notes()
    {
        MusicXmlReader
            .Read(SixStrings, "six.musicxml")
            .Messages.Should()
            .Contain(said => said.What == "the tab is not that of five strings");
        NotationReader.Read(SixStrings, "six.musicxml").Tune!.Played().Should().HaveCount(2);
    }

    [Fact]
    public void A_tab_staff_without_strings_and_frets_is_read_by_its_pitches() =>
        NotationReader
            .Read(TabWithoutFrets, "t.musicxml")
            .Tune!.Played()
            .Single()
            .Pitch.Should()
            .Be(new Pitch(new(Letter.G), 3));

    private static string Score(params string[] parts) =>
        "<?xml version=\"1.0\"?><score-partwise version=\"4.0\"><part-list><score-part id=\"P1\"><part-name>Fiddle</part-name></score-part></part-list>"
        + string.Concat(parts)
        + "</score-partwise>";

    private static string Part(string id, params string[] measures) =>
        $"<part id=\"{id}\">{string.Concat(measures)}</part>";

    private static string Measure(int number, string content) => $"<measure number=\"{number}\">{content}</measure>";

    private static string Head(string divisions, string more = "") =>
        $"<attributes><divisions>{divisions}</divisions><key><fifths>0</fifths><mode>major</mode></key><time><beats>4</beats><beat-type>4</beat-type></time>{more}</attributes>";

    private static string Note(string step, int octave, string duration, string type, int voice = 1) =>
        $"<note><pitch><step>{step}</step><octave>{octave}</octave></pitch><duration>{duration}</duration><voice>{voice}</voice><type>{type}</type></note>";

    private static string Triplet(int duration) =>
        $"<note><pitch><step>B</step><octave>4</octave></pitch><duration>{duration}</duration><type>eighth</type>"
        + "<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification></note>";

    private static string TabNote(string step, int octave, int banjoString, int fret) =>
        $"<note><pitch><step>{step}</step><octave>{octave}</octave></pitch><duration>1</duration>"
        + $"<notations><technical><string>{banjoString}</string><fret>{fret}</fret></technical></notations></note>";
}
