using System.Xml.Linq;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.MusicXml;

/// <summary>Writes note elements: the notation staff shows pitch and rhythm, the tab staff what both hands do.</summary>
internal sealed class NoteWriter(Break written, int divisions)
{
    private readonly Key key = written.Setting.SoundingKey;
    private readonly Slurring slurs = new(written);

    public IEnumerable<XElement> Staff(List<Piece> pieces, int bar, int staff)
    {
        var shown = new ShownAccidentals(key);
        foreach (var piece in pieces)
        {
            if (piece.IsRest)
                yield return Note(piece, staff, [new XElement("rest")], null, null, isFirst: true);
            for (var i = 0; i < piece.Strokes.Length; i++)
            {
                var stroke = piece.Strokes[i];
                var pitch = PitchOf(stroke);
                List<XElement> head = i > 0 ? [new XElement("chord")] : [];
                head.Add(Pitched(pitch));
                var accidental = staff == 1 && !piece.TieStop ? shown.Of(pitch) : null;
                var notations = new Notations(piece, stroke, i == 0, staff == 2).Write(slurs.StartAt(bar, stroke));
                yield return Note(piece, staff, head, accidental, notations, i == 0);
            }
        }
    }

    public XElement Duration(Fraction length) => new("duration", (length * 4 * divisions).Numerator);

    private Pitch PitchOf(Stroke stroke)
    {
        var midi = written.KeyOf(stroke);
        return Pitch.FromMidi(midi, key.Spell(midi));
    }

    private static XElement Pitched(Pitch pitch) =>
        new(
            "pitch",
            new XElement("step", pitch.Name.Letter),
            pitch.Name.Alter == 0 ? null : new XElement("alter", pitch.Name.Alter),
            new XElement("octave", pitch.Octave)
        );

    private XElement Note(
        Piece piece,
        int staff,
        List<XElement> head,
        string? accidental,
        XElement? notations,
        bool isFirst
    ) =>
        new(
            "note",
            head,
            Duration(piece.Length),
            piece.TieStop ? new XElement("tie", new XAttribute("type", "stop")) : null,
            piece.TieStart ? new XElement("tie", new XAttribute("type", "start")) : null,
            new XElement("voice", staff),
            piece.Value.Type is { } type ? new XElement("type", type) : null,
            Enumerable.Range(0, piece.Value.Dots).Select(_ => new XElement("dot")),
            accidental is null ? null : new XElement("accidental", accidental),
            piece.Value.IsTuplet
                ? new XElement(
                    "time-modification",
                    new XElement("actual-notes", piece.Value.Actual),
                    new XElement("normal-notes", piece.Value.Normal)
                )
                : null,
            new XElement("staff", staff),
            isFirst
                ? piece.Beams.Select((beam, level) => new XElement("beam", new XAttribute("number", level + 1), beam))
                : null,
            notations ?? (piece.IsRest ? Notations.OfRest(piece) : null)
        );
}
