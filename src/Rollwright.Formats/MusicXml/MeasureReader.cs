using System.Xml.Linq;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.MusicXml;

/// <summary>Reads one measure after another; divisions and metre hold until they change.</summary>
internal sealed class MeasureReader(XElement part, int fifthsToPosition, MessageLog log)
{
    private readonly string? tabStaff = part.Descendants("clef")
        .FirstOrDefault(clef => (string?)clef.Element("sign") == "TAB")
        ?.Attribute("number")
        ?.Value;

    private readonly List<Stroke> strokes = [];
    private readonly List<ChordAt> chords = [];
    private long divisions = 1;
    private TimeSignature time = TimeSignature.Common;
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
                    ReadAttributes(element);
                    break;
                case "backup":
                    now = Fraction.Max(Fraction.Zero, now - Duration(element));
                    break;
                case "forward":
                    now += Duration(element);
                    break;
                case "note" when element.Element("grace") is null:
                    var isChord = element.Element("chord") is not null;
                    ReadNote(element, isChord ? before : now);
                    if (!isChord)
                        (before, now) = (now, now + Duration(element));
                    break;
                case "harmony":
                    ReadHarmony(element, now);
                    break;
                case "direction" when element.Descendants("rehearsal").FirstOrDefault() is { } label:
                    marks = marks with { Part = label.Value.Trim() };
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
            length = time.Bar;
        return new()
        {
            Length = length,
            Time = time,
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

    private void ReadAttributes(XElement attributes)
    {
        if (
            long.TryParse((string?)attributes.Element("divisions"), out var parts)
            && parts is >= 1 and <= AbcLimits.Grid
        )
            divisions = parts;
        if (
            attributes.Element("time") is { } element
            && MetreField.Read($"{(string?)element.Element("beats")}/{(string?)element.Element("beat-type")}")
                is { } read
        )
            time = read;
    }

    // Whole notes; what is no length, or too long or fine to add up exactly, counts as none.
    private Fraction Duration(XElement element)
    {
        if (
            !long.TryParse((string?)element.Element("duration"), out var parts)
            || parts < 0
            || parts > 4 * divisions * AbcLimits.LongestBar
        )
            return Fraction.Zero;
        var length = new Fraction(parts, 4 * divisions);
        return AbcLimits.Grid % length.Denominator == 0 ? length : Fraction.Zero;
    }

    private void ReadNote(XElement note, Fraction at)
    {
        var technical = note.Elements("notations")
            .Elements("technical")
            .FirstOrDefault(one => one.Element("fret") is not null);
        if (technical is null || (tabStaff is not null && ((string?)note.Element("staff") ?? "1") != tabStaff))
            return;
        var (line, column) = MusicXmlReader.Place(note);
        var length = Duration(note);
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
        strokes.Add(TabNoteReader.Read(note, technical, at, length, banjoString, fret));
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

    private void ReadHarmony(XElement harmony, Fraction now)
    {
        if (HarmonyReader.Read(harmony) is not { } chord)
        {
            var (line, column) = MusicXmlReader.Place(harmony);
            log.NoteOnce(line, column, "chord symbols of other kinds than are known here are kept aside");
            return;
        }
        var offset = Fraction.Zero;
        if (
            long.TryParse((string?)harmony.Element("offset"), out var parts)
            && Math.Abs(parts) < 4 * divisions * AbcLimits.LongestBar
        )
            offset = new(parts, 4 * divisions);
        if (AbcLimits.Grid % offset.Denominator == 0)
            chords.Add(new(now + offset, chord.TransposeFifths(fifthsToPosition)));
    }
}
