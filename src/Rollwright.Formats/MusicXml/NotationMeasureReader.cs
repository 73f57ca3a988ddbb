using System.Collections.Immutable;
using System.Xml.Linq;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.MusicXml;

/// <summary>Reads the notes of one measure after another; divisions, metre, key and transposition hold until they change.</summary>
internal sealed class NotationMeasureReader
{
    private readonly MessageLog log;
    private readonly HashSet<string> tabStaves;
    private readonly List<Note> notes = [];
    private readonly List<ChordAt> chords = [];
    private readonly HashSet<int> ended = [];
    private long divisions = 1;
    private int transposition;
    private TimeSignature time = TimeSignature.Common;
    private Key key = new(new(Letter.C));

    public NotationMeasureReader(XElement part, MessageLog log)
    {
        this.log = log;
        // Tab under notation says the same again; where there is nothing but tab, its pitches are read.
        var tab = part.Descendants("clef")
            .Where(clef => (string?)clef.Element("sign") == "TAB")
            .Select(StaffOf)
            .ToHashSet();
        var isAllTab = part.Descendants("note").All(note => tab.Contains(StaffOf(note)));
        tabStaves = isAllTab ? [] : tab;
    }

    public TuneBar Read(XElement measure)
    {
        notes.Clear();
        chords.Clear();
        var marks = BarMarks.None;
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
                case "note" when element.Element("grace") is not null || element.Element("cue") is not null:
                    Aside(element, "grace notes and cue notes are kept aside");
                    break;
                case "note":
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
        return Bar(longest > Fraction.Zero ? longest : time.Bar, marks);
    }

    private TuneBar Bar(Fraction length, BarMarks marks) =>
        new()
        {
            Length = length,
            Time = time,
            Key = key,
            Marks = marks,
            Notes = Together(length),
            Chords =
            [
                .. chords.Where(chord => chord.At < length && chord.At >= Fraction.Zero).OrderBy(chord => chord.At),
            ],
        };

    // What begins together stands from the lowest; every note ends at the latest where the next one begins. A tie goes on
    // from a note that was so ended to nothing: it must not be struck anew.
    private ImmutableArray<Note> Together(Fraction length)
    {
        var starts = notes.Select(note => note.At).Append(length).Distinct().Order().ToList();
        var together = ImmutableArray.CreateBuilder<Note>(notes.Count);
        foreach (
            var start in notes.Where(note => note.At < length).GroupBy(note => note.At).OrderBy(group => group.Key)
        )
        {
            var end = starts[starts.BinarySearch(start.Key) + 1];
            var longest = start.Max(note => note.Length);
            foreach (var same in start.GroupBy(note => note.Pitch.Midi).OrderBy(same => same.Key))
            {
                var note = same.MaxBy(one => one.Length);
                if (note.TiedFromBefore && ended.Contains(same.Key))
                    continue;
                ended.Remove(same.Key);
                if (note.Length > end - start.Key)
                    ended.Add(same.Key);
                together.Add(note with { Length = Fraction.Min(longest, end - start.Key) });
            }
        }
        return together.ToImmutable();
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
        if (attributes.Element("transpose") is { } moved)
            transposition = Whole(moved, "chromatic", 24) + (12 * Whole(moved, "octave-change", 4));
        if (attributes.Element("key") is { } signature)
            key = KeyReader.Read(signature).Transpose(transposition);
    }

    private static int Whole(XElement parent, string name, int most) =>
        int.TryParse((string?)parent.Element(name), out var value) ? Math.Clamp(value, -most, most) : 0;

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
        if (note.Element("rest") is not null || tabStaves.Contains(StaffOf(note)))
            return;
        if (note.Element("unpitched") is not null)
        {
            Aside(note, "notes without a pitch are kept aside");
            return;
        }
        var length = Duration(note);
        if (PitchOf(note.Element("pitch")) is not { } written || length <= Fraction.Zero)
        {
            var (line, column) = MusicXmlReader.Place(note);
            log.Error(line, column, "a note without pitch or length", "write step, octave and duration");
            return;
        }
        if (at > new Fraction(AbcLimits.LongestBar))
            return;
        var midi = written.Midi + transposition;
        var pitch = transposition == 0 ? written : Pitch.FromMidi(midi, key.Spell(midi));
        var isTied = note.Elements("tie").Any(tie => (string?)tie.Attribute("type") == "stop");
        notes.Add(new(at, length, pitch, isTied));
    }

    private static Pitch? PitchOf(XElement? pitch)
    {
        if (
            PitchName.Parse((string?)pitch?.Element("step")) is not { Alter: 0 } step
            || !int.TryParse((string?)pitch!.Element("octave"), out var octave)
            || octave is < 0 or > 9
            || !int.TryParse((string?)pitch.Element("alter") ?? "0", out var alter)
            || alter is < -2 or > 2
        )
            return null;
        return new(step with { Alter = alter }, octave);
    }

    private void ReadHarmony(XElement harmony, Fraction now)
    {
        if (transposition != 0 || HarmonyReader.Read(harmony) is not { } chord)
        {
            Aside(
                harmony,
                "chord symbols of other kinds than are known here, and of transposing parts, are kept aside"
            );
            return;
        }
        var offset = Fraction.Zero;
        if (
            long.TryParse((string?)harmony.Element("offset"), out var parts)
            && Math.Abs(parts) < 4 * divisions * AbcLimits.LongestBar
        )
            offset = new(parts, 4 * divisions);
        if (AbcLimits.Grid % offset.Denominator == 0)
            chords.Add(new(now + offset, chord));
    }

    private void Aside(XElement element, string what)
    {
        var (line, column) = MusicXmlReader.Place(element);
        log.NoteOnce(line, column, what);
    }

    private static string StaffOf(XElement element) =>
        (
            (string?)(
                element.Name.LocalName == "clef" ? element.Attribute("number")?.Value : element.Element("staff")?.Value
            )
        ) ?? "1";
}
