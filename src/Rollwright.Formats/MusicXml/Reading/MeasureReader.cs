using System.Xml.Linq;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>Reads one measure of tab after another; divisions and metre hold until they change.</summary>
internal sealed class MeasureReader(XElement part, Setting setting, MessageLog log)
{
    private readonly string? tabStaff = TabStaffOf(part);
    private readonly int fifthsToPosition = setting.Position.Tonic.Fifths - setting.SoundingKey.Tonic.Fifths;
    private readonly List<Stroke> strokes = [];
    private readonly List<ChordAt> chords = [];
    private readonly ScoreTiming timing = new(log);
    private BarMarks marks = BarMarks.None;

    public BreakBar Read(XElement measure)
    {
        strokes.Clear();
        chords.Clear();
        marks = BarMarks.None;
        var now = Fraction.Zero;
        var before = Fraction.Zero;
        var longest = Fraction.Zero;
        foreach (var element in measure.Elements())
        {
            switch (element.Name.LocalName)
            {
                case "attributes":
                    timing.Read(element);
                    break;
                case "backup":
                    now = Fraction.Max(Fraction.Zero, now - timing.Duration(element));
                    break;
                case "forward":
                    now += timing.Duration(element);
                    break;
                case "note" when element.Element("grace") is not null:
                    Aside(element, "grace notes are kept aside");
                    break;
                case "note":
                    var isChord = element.Element("chord") is not null;
                    ReadNote(element, isChord ? before : now);
                    if (!isChord)
                        (before, now) = (now, now + timing.Duration(element));
                    break;
                case "harmony":
                    ReadHarmony(element, now);
                    break;
                case "direction" when element.Descendants("rehearsal").FirstOrDefault() is { } label:
                    marks = marks with { Part = label.Value.Trim() };
                    break;
                case "direction" or "sound" when NotationMeasureReader.IsJump(element):
                    Aside(element, "jumps to a sign or a coda are kept aside; repeats and endings are read");
                    break;
                case "barline":
                    marks = BarLineReader.Read(element, marks);
                    break;
                default:
                    break;
            }
            longest = Fraction.Max(longest, now);
        }
        return Bar(longest);
    }

    private BreakBar Bar(Fraction length)
    {
        if (length <= Fraction.Zero)
            length = timing.Time.Bar;
        return new()
        {
            Length = length,
            Time = timing.Time,
            Marks = marks,
            Strokes =
            [
                .. strokes
                    .Where(stroke => stroke.At < length)
                    .OrderBy(stroke => stroke.At)
                    .ThenBy(stroke => stroke.String),
            ],
            Chords =
            [
                .. chords.Where(chord => chord.At < length && chord.At >= Fraction.Zero).OrderBy(chord => chord.At),
            ],
        };
    }

    // Some programs write strings and frets at the notation only, whatever clef stands elsewhere.
    private static string? TabStaffOf(XElement part) =>
        part.Descendants("clef")
            .Where(clef => (string?)clef.Element("sign") == "TAB")
            .Select(clef => clef.Attribute("number")?.Value ?? "1")
            .Distinct()
            .FirstOrDefault(staff =>
                part.Descendants("note")
                    .Any(note =>
                        NotationMeasureReader.StaffOf(note) == staff
                        && note.Elements("notations").Elements("technical").Elements("fret").Any()
                    )
            );

    private void ReadNote(XElement note, Fraction at)
    {
        var technical = note.Elements("notations")
            .Elements("technical")
            .FirstOrDefault(one => one.Element("fret") is not null);
        if (technical is null || (tabStaff is not null && NotationMeasureReader.StaffOf(note) != tabStaff))
            return;
        var (line, column) = MusicXmlReader.Place(note);
        var length = timing.Duration(note);
        if (
            !int.TryParse((string?)technical.Element("string"), out var banjoString)
            || !int.TryParse((string?)technical.Element("fret"), out var fret)
            || banjoString is < 1 or > Neck.Strings
            || fret is < 0 or > 36
            || length <= Fraction.Zero
            || at > new Fraction(AbcLimits.LongestBar)
        )
        {
            log.Error(
                line,
                column,
                "a tab note without a length, or off the five strings",
                "write string 1 to 5, fret and duration"
            );
            return;
        }
        if (note.Elements("tie").Any(tie => (string?)tie.Attribute("type") == "stop") && Hold(banjoString, at, length))
            return;
        strokes.Add(TabNoteReader.Read(note, technical, at, length, banjoString, FretOf(note, banjoString, fret)));
    }

    // A tied note makes the one before it longer.
    private bool Hold(int banjoString, Fraction at, Fraction length)
    {
        var index = strokes.FindLastIndex(stroke => stroke.String == banjoString && stroke.At + stroke.Length == at);
        if (index < 0)
            return false;
        strokes[index] = strokes[index] with { Length = strokes[index].Length + length };
        return true;
    }

    // The pitch is the truth where frets of the short string are counted from its own peg: then fret 1 is the neck's 6.
    private int FretOf(XElement note, int banjoString, int fret)
    {
        if (banjoString != Neck.ShortString || fret == 0)
            return fret;
        var above = NotationMeasureReader.PitchOf(note.Element("pitch")) is { } pitch
            ? (pitch.Midi - setting.SoundingKeyOf(banjoString, 0)) % 12
            : (int?)null;
        if (Neck.HasFret(banjoString, fret) && (above is null || (above - fret) % 12 != 0))
            return fret;
        var (line, column) = MusicXmlReader.Place(note);
        log.NoteOnce(line, column, "frets of string 5 are counted from its own peg there; they are read as the neck's");
        return fret + Neck.ShortStringStart;
    }

    private void ReadHarmony(XElement harmony, Fraction now)
    {
        if (HarmonyReader.Read(harmony) is not { } chord)
            Aside(harmony, "chord symbols of other kinds than are known here are kept aside");
        else if (timing.Offset(harmony) is { } offset)
            chords.Add(new(now + offset, chord.TransposeFifths(fifthsToPosition)));
    }

    private void Aside(XElement element, string what)
    {
        var (line, column) = MusicXmlReader.Place(element);
        log.NoteOnce(line, column, what);
    }
}
