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
    : MeasureWalk<TuneBar>(log)
{
    private readonly List<Note> notes = [];
    private readonly HashSet<int> ended = [];
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

    // Symbols are transposed as the notes are.
    protected override int ChordFifths => key.Tonic.Fifths - written.Tonic.Fifths;

    protected override void Clear() => notes.Clear();

    protected override string? WhyAside(XElement note) =>
        note.Element("grace") is null && note.Element("cue") is null
            ? null
            : "grace notes and cue notes are kept aside";

    protected override TuneBar Bar(Fraction length, BarMarks marks, ImmutableArray<ChordAt> chords) =>
        new()
        {
            Length = length,
            Time = Timing.Time,
            Key = key,
            Marks = marks,
            Notes = Together(length),
            Chords = chords,
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

    protected override void ReadAttributes(XElement attributes)
    {
        base.ReadAttributes(attributes);
        if (attributes.Element("transpose") is { } moved)
            transposition = Whole(moved, "chromatic", 24) + (12 * Whole(moved, "octave-change", 4));
        if (attributes.Element("key") is { } signature)
            written = KeyReader.Read(signature);
        key = transposition % 12 == 0 ? written : written.Transpose(transposition);
    }

    private static int Whole(XElement parent, string name, int most) =>
        int.TryParse((string?)parent.Element(name), out var value) ? Math.Clamp(value, -most, most) : 0;

    protected override void ReadNote(XElement note, Fraction at)
    {
        if (note.Element("rest") is not null || tabStaves.Contains(StaffOf(note)) || !IsOfVoice(note))
            return;
        if (note.Element("unpitched") is not null)
        {
            Aside(note, "notes without a pitch are kept aside");
            return;
        }
        var length = Timing.Duration(note);
        if (PitchOf(note.Element("pitch")) is not { } written || length <= Fraction.Zero)
        {
            var (line, column) = MusicXmlReader.Place(note);
            Log.Error(line, column, "a note without pitch or length", "write step, octave and duration");
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

    internal static string StaffOf(XElement element) =>
        (
            (string?)(
                element.Name.LocalName == "clef" ? element.Attribute("number")?.Value : element.Element("staff")?.Value
            )
        ) ?? "1";
}
