using System.Collections.Immutable;
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
internal sealed class MeasureReader(XElement part, Setting setting, MessageLog log) : MeasureWalk<BreakBar>(log)
{
    private readonly string? tabStaff = TabStaffOf(part);
    private readonly List<Stroke> strokes = [];

    protected override int ChordFifths { get; } = setting.Position.Tonic.Fifths - setting.SoundingKey.Tonic.Fifths;

    protected override void Clear() => strokes.Clear();

    protected override string? WhyAside(XElement note) =>
        note.Element("grace") is null ? null : "grace notes are kept aside";

    protected override BreakBar Bar(Fraction length, BarMarks marks, ImmutableArray<ChordAt> chords) =>
        new()
        {
            Length = length,
            Time = Timing.Time,
            Marks = marks,
            Strokes =
            [
                .. strokes
                    .Where(stroke => stroke.At < length)
                    .OrderBy(stroke => stroke.At)
                    .ThenBy(stroke => stroke.String),
            ],
            Chords = chords,
        };

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

    protected override void ReadNote(XElement note, Fraction at)
    {
        var technical = note.Elements("notations")
            .Elements("technical")
            .FirstOrDefault(one => one.Element("fret") is not null);
        if (technical is null || (tabStaff is not null && NotationMeasureReader.StaffOf(note) != tabStaff))
            return;
        var (line, column) = MusicXmlReader.Place(note);
        var length = Timing.Duration(note);
        if (
            !int.TryParse((string?)technical.Element("string"), out var banjoString)
            || !int.TryParse((string?)technical.Element("fret"), out var fret)
            || banjoString is < 1 or > Neck.Strings
            || fret is < 0 or > 36
            || length <= Fraction.Zero
            || at > new Fraction(AbcLimits.LongestBar)
        )
        {
            Log.Error(
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
        Log.NoteOnce(line, column, "frets of string 5 are counted from its own peg there; they are read as the neck's");
        return fret + Neck.ShortStringStart;
    }
}
