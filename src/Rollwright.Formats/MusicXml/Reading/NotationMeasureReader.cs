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

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>Reads the notes of one measure after another; divisions, metre, key and transposition hold until they change.</summary>
/// <param name="tabStaves">Staves that are not read, for they say the same again.</param>
/// <param name="voice">The voice that is read; null for all.</param>
/// <param name="log">Is told what is kept aside.</param>
internal sealed class NotationMeasureReader(HashSet<string> tabStaves, string? voice, MessageLog log)
{
    private readonly List<Note> notes = [];
    private readonly List<ChordAt> chords = [];
    private readonly HashSet<int> ended = [];
    private readonly ScoreTiming timing = new(log);
    private int transposition;
    private Key written = new(new(Letter.C));
    private Key key = new(new(Letter.C));

    /// <summary>Tab under notation says the same again; where there is nothing but tab, its pitches are read.</summary>
    public static HashSet<string> TabStavesOf(XElement part)
    {
        var tab = part.Descendants("clef")
            .Where(clef => (string?)clef.Element("sign") == "TAB")
            .Select(StaffOf)
            .ToHashSet();
        var isAllTab = part.Descendants("note")
            .Where(note => note.Element("pitch") is not null)
            .All(note => tab.Contains(StaffOf(note)));
        return isAllTab ? [] : tab;
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
                    now = Fraction.Max(Fraction.Zero, now - timing.Duration(element));
                    break;
                case "forward":
                    now += timing.Duration(element);
                    break;
                case "note" when element.Element("grace") is not null || element.Element("cue") is not null:
                    Aside(element, "grace notes and cue notes are kept aside");
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
                case "direction" or "sound" when IsJump(element):
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
        return Bar(longest > Fraction.Zero ? longest : timing.Time.Bar, marks);
    }

    private TuneBar Bar(Fraction length, BarMarks marks) =>
        new()
        {
            Length = length,
            Time = timing.Time,
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
        timing.Read(attributes);
        if (attributes.Element("transpose") is { } moved)
            transposition = Whole(moved, "chromatic", 24) + (12 * Whole(moved, "octave-change", 4));
        if (attributes.Element("key") is { } signature)
            written = KeyReader.Read(signature);
        key = transposition % 12 == 0 ? written : written.Transpose(transposition);
    }

    private static int Whole(XElement parent, string name, int most) =>
        int.TryParse((string?)parent.Element(name), out var value) ? Math.Clamp(value, -most, most) : 0;

    private void ReadNote(XElement note, Fraction at)
    {
        if (note.Element("rest") is not null || tabStaves.Contains(StaffOf(note)) || !IsOfVoice(note))
            return;
        if (note.Element("unpitched") is not null)
        {
            Aside(note, "notes without a pitch are kept aside");
            return;
        }
        var length = timing.Duration(note);
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

    private bool IsOfVoice(XElement note) => voice is null || VoiceChoice.VoiceOf(note) == voice;

    internal static Pitch? PitchOf(XElement? pitch)
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
        if (HarmonyReader.Read(harmony) is not { } chord)
            Aside(harmony, "chord symbols of other kinds than are known here are kept aside");
        // Symbols are written where the notes are, so they move with them.
        else if (timing.Offset(harmony) is { } offset)
            chords.Add(new(now + offset, chord.TransposeFifths(key.Tonic.Fifths - written.Tonic.Fifths)));
    }

    /// <summary>Whether play goes on elsewhere: da capo, dal segno, to the coda.</summary>
    internal static bool IsJump(XElement element) =>
        element
            .DescendantsAndSelf("sound")
            .Attributes()
            .Any(one => one.Name.LocalName is "dacapo" or "dalsegno" or "tocoda");

    private void Aside(XElement element, string what)
    {
        var (line, column) = MusicXmlReader.Place(element);
        log.NoteOnce(line, column, what);
    }

    internal static string StaffOf(XElement element) =>
        (
            (string?)(
                element.Name.LocalName == "clef" ? element.Attribute("number")?.Value : element.Element("staff")?.Value
            )
        ) ?? "1";
}
