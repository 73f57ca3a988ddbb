using System.Collections.Immutable;
using System.Xml.Linq;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>
/// Goes through measures one after another and says when what is: notes go on, chords of notes stay, backup goes back. What a
/// note is, tab or pitch, its reader knows; divisions and metre hold until they change.
/// </summary>
internal abstract class MeasureWalk<TBar>(MessageLog log)
{
    private readonly List<ChordAt> chords = [];

    protected MessageLog Log => log;

    protected ScoreTiming Timing { get; } = new(log);

    /// <summary>The bar of a measure.</summary>
    public TBar Read(XElement measure)
    {
        Clear();
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
                    now = Fraction.Max(Fraction.Zero, now - Timing.Duration(element));
                    break;
                case "forward":
                    now += Timing.Duration(element);
                    break;
                case "note" when WhyAside(element) is { } why:
                    Aside(element, why);
                    break;
                case "note":
                    var isChord = element.Element("chord") is not null;
                    ReadNote(element, isChord ? before : now);
                    if (!isChord)
                        (before, now) = (now, now + Timing.Duration(element));
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
        var length = longest > Fraction.Zero ? longest : Timing.Time.Bar;
        return Bar(
            length,
            marks,
            [.. chords.Where(chord => chord.At < length && chord.At >= Fraction.Zero).OrderBy(chord => chord.At)]
        );
    }

    /// <summary>The bars of a part, as many as are taken.</summary>
    public ImmutableArray<TBar> ReadAll(XElement part)
    {
        var bars = ImmutableArray.CreateBuilder<TBar>();
        foreach (var measure in part.Elements("measure"))
        {
            if (bars.Count == AbcLimits.MostBars)
            {
                var (line, column) = MusicXmlReader.Place(measure);
                log.Error(
                    line,
                    column,
                    $"more than {AbcLimits.MostBars} measures; the rest is left out",
                    "part the score"
                );
                break;
            }
            bars.Add(Read(measure));
        }
        return bars.ToImmutable();
    }

    /// <summary>Forgets the notes of the measure before.</summary>
    protected abstract void Clear();

    protected virtual void ReadAttributes(XElement attributes) => Timing.Read(attributes);

    /// <summary>Why a note is not read; null for one that is.</summary>
    protected abstract string? WhyAside(XElement note);

    protected abstract void ReadNote(XElement note, Fraction at);

    /// <summary>Fifths by which chord symbols move from what is written.</summary>
    protected abstract int ChordFifths { get; }

    protected abstract TBar Bar(Fraction length, BarMarks marks, ImmutableArray<ChordAt> chords);

    protected void Aside(XElement element, string what)
    {
        var (line, column) = MusicXmlReader.Place(element);
        log.NoteOnce(line, column, what);
    }

    // Symbols are written where the notes are, so they move with them.
    private void ReadHarmony(XElement harmony, Fraction now)
    {
        if (HarmonyReader.Read(harmony) is not { } chord)
            Aside(harmony, "chord symbols of other kinds than are known here are kept aside");
        else if (Timing.Offset(harmony) is { } offset)
            chords.Add(new(now + offset, chord.TransposeFifths(ChordFifths)));
    }

    // Whether play goes on elsewhere: da capo, dal segno, to the coda.
    private static bool IsJump(XElement element) =>
        element
            .DescendantsAndSelf("sound")
            .Attributes()
            .Any(one => one.Name.LocalName is "dacapo" or "dalsegno" or "tocoda");
}
