using System.Text;
using System.Xml;
using System.Xml.Linq;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Json;
using Rollwright.Formats.Midi;
using Rollwright.Formats.MusicXml.Reading;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.MusicXml;

/// <summary>
/// Writes a break as MusicXML 4.0 (partwise): one part of two staves, notation above five-line tab. Pitches, key and
/// chords are those that sound, capo included; the tuning is that of the strings without the capo.
/// </summary>
public static class MusicXmlWriter
{
    /// <exception cref="ArgumentException">The break has no bar.</exception>
    public static string Write(Break written)
    {
        if (written.Bars.IsEmpty)
            throw new ArgumentException("A break has at least one bar.", nameof(written));
        var score = new XElement(
            "score-partwise",
            new XAttribute("version", "4.0"),
            new XElement("work", new XElement("work-title", XmlText.Clean(written.Title))),
            Identification(written),
            PartList(),
            new XElement("part", new XAttribute("id", "P1"), new MeasureWriter(written, Divisions(written)).Measures())
        );
        using var text = new Utf8Text();
        var layout = new XmlWriterSettings
        {
            Indent = true,
            IndentChars = " ",
            NewLineChars = "\n",
        };
        using (var xml = XmlWriter.Create(text, layout))
            score.Save(xml);
        return text.Append('\n').ToString();
    }

    private static XElement Identification(Break written) =>
        new(
            "identification",
            written.Composer.Length > 0
                ? new XElement("creator", new XAttribute("type", "composer"), XmlText.Clean(written.Composer))
                : null,
            new XElement("encoding", new XElement("software", "Rollwright")),
            // What the setting says beyond tuning and capo, which MusicXML has elements for.
            new XElement(
                "miscellaneous",
                Field("setting-tuning", written.Setting.Tuning.Id),
                Field("setting-position", written.Setting.Position.ToString()),
                Field("setting-shift", $"{written.Setting.Shift}"),
                JsonWriter.Remainder(written) is { Length: > 0 } beside ? Field(BreakRemainder.Field, beside) : null
            )
        );

    private static XElement Field(string name, string value) =>
        new("miscellaneous-field", new XAttribute("name", name), XmlText.Clean(value));

    private static XElement PartList() =>
        new(
            "part-list",
            new XElement(
                "score-part",
                new XAttribute("id", "P1"),
                new XElement("part-name", "Banjo"),
                new XElement(
                    "score-instrument",
                    new XAttribute("id", "P1-I1"),
                    new XElement("instrument-name", "Banjo")
                ),
                new XElement(
                    "midi-instrument",
                    new XAttribute("id", "P1-I1"),
                    new XElement("midi-channel", 1),
                    // MusicXML counts programs from 1.
                    new XElement("midi-program", MidiWriter.BanjoProgram + 1)
                )
            )
        );

    // The fewest parts of a quarter note that make every length a whole number.
    private static int Divisions(Break written)
    {
        var divisions = 1L;
        foreach (var bar in written.Bars)
        {
            divisions = Include(divisions, bar.Length);
            foreach (var chord in bar.Chords)
                divisions = Include(divisions, chord.At);
            foreach (var stroke in bar.Strokes)
            {
                divisions = Include(divisions, stroke.At);
                divisions = Include(divisions, stroke.Length);
            }
            // Long lengths are parted at beats.
            divisions = Include(divisions, bar.Time.Beat);
        }
        return checked((int)divisions);
    }

    private static long Include(long divisions, Fraction length)
    {
        var needed = (length * 4).Denominator;
        var (a, b) = (divisions, needed);
        while (b != 0)
            (a, b) = (b, a % b);
        return checked(divisions / a * needed);
    }

    private sealed class Utf8Text : StringWriter
    {
        public override Encoding Encoding => Encoding.UTF8;

        public StringBuilder Append(char sign) => GetStringBuilder().Append(sign);
    }
}
