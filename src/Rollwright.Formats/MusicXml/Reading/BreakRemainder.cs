using System.Xml.Linq;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Json;
using Rollwright.Formats.Messages;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>
/// Names of rolls and licks, and the tune: MusicXML has no place for them, so they travel as JSON in a
/// <c>miscellaneous-field</c>, which other programs leave alone.
/// </summary>
internal sealed class BreakRemainder(XElement score, MessageLog log)
{
    public const string Field = "rollwright-break-beside";

    public Break AddTo(Break read)
    {
        var field = score
            .Descendants("miscellaneous-field")
            .FirstOrDefault(one => (string?)one.Attribute("name") == Field);
        if (field is null)
            return read;
        if (JsonReader.WithRemainder(read, field.Value) is { } whole)
            return whole;
        var (line, column) = MusicXmlReader.Place(field);
        log.NoteOnce(line, column, "the tune and the names of rolls do not fit the notes any more and are kept aside");
        return read;
    }
}
