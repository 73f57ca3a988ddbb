using System.Collections.Immutable;
using System.Xml.Linq;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.MusicXml;

/// <summary>Writes the measures: attributes where they change, notation staff, back, tab staff.</summary>
internal sealed class MeasureWriter(Break written, int divisions)
{
    private readonly NoteWriter notes = new(written, divisions);
    private readonly int transposition =
        written.Setting.SoundingKey.Tonic.Fifths - written.Setting.Position.Tonic.Fifths;

    public IEnumerable<XElement> Measures()
    {
        ImmutableArray<int> ending = [];
        var numbering = written.Numbering;
        for (var i = 0; i < written.Bars.Length; i++)
        {
            var bar = written.Bars[i];
            var (number, name, offset) = numbering[i];
            // What leads in, or goes on with a bar that a repeat cut in two, is not counted; its number here is its own.
            var isCounted = !numbering[i].IsShortInFront;
            if (!bar.Marks.EndingStart.IsEmpty)
                ending = bar.Marks.EndingStart;
            yield return new(
                "measure",
                new XAttribute("number", isCounted || name == "0" ? $"{number}" : $"X{i}"),
                isCounted && !bar.IsPartial ? null : new XAttribute("implicit", "yes"),
                BarLineWriter.Left(bar.Marks),
                Attributes(i),
                Directions(i),
                Content(bar, i, offset),
                BarLineWriter.Right(bar.Marks, ending, i == written.Bars.Length - 1)
            );
            if (bar.Marks.EndingStop)
                ending = [];
        }
    }

    private XElement? Attributes(int index)
    {
        if (index == 0)
            return AttributesWriter.First(written, divisions);
        var time = written.Bars[index].Time;
        return time == written.Bars[index - 1].Time ? null : new("attributes", AttributesWriter.Time(time));
    }

    private IEnumerable<XElement> Directions(int index)
    {
        if (index == 0)
            yield return TempoWriter.Write(written.Tempo, written.Swing, written.Time.Step);
        if (written.Bars[index].Marks.Part is { } part)
            yield return new(
                "direction",
                new XAttribute("placement", "above"),
                new XElement("direction-type", new XElement("rehearsal", XmlText.Clean(part))),
                new XElement("staff", 1)
            );
    }

    private IEnumerable<XElement> Content(BreakBar bar, int index, Fraction offset)
    {
        var pieces = Piece.Of(bar, offset);
        var chords = new Queue<Music.Chords.ChordAt>(bar.Chords);
        var at = Fraction.Zero;
        foreach (var note in notes.Staff(pieces, index, 1))
        {
            var length = note.Element("chord") is null ? LengthOf(note) : Fraction.Zero;
            while (length > Fraction.Zero && chords.Count > 0 && chords.Peek().At < at + length)
                yield return Harmony(chords.Dequeue(), at);
            yield return note;
            at += length;
        }
        while (chords.Count > 0)
            yield return Harmony(chords.Dequeue(), at);
        yield return new("backup", notes.Duration(bar.Length));
        foreach (var note in notes.Staff(pieces, index, 2))
            yield return note;
    }

    private XElement Harmony(Music.Chords.ChordAt chord, Fraction at) =>
        HarmonyWriter.Write(chord.Chord.TransposeFifths(transposition), ((chord.At - at) * 4 * divisions).Numerator);

    private Fraction LengthOf(XElement note) => new((long)note.Element("duration")!, 4L * divisions);
}
