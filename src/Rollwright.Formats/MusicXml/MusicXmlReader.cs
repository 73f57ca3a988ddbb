using System.Xml;
using System.Xml.Linq;
using Rollwright.Formats.Messages;

namespace Rollwright.Formats.MusicXml;

/// <summary>
/// Reads a break from MusicXML (partwise) that holds five-string tab: notes with string and fret, fingers, slurs,
/// chords, repeats and endings. What this program wrote comes back whole, save rolls and licks by name and the tune,
/// which the format has no place for.
/// </summary>
public static class MusicXmlReader
{
    /// <summary>Of a file; a page of tab is some hundred thousand.</summary>
    public const int MostCharacters = 20_000_000;

    public static BreakReading Read(string text, string fileName)
    {
        if (text.Length > MostCharacters)
            return BreakReading.Refused(
                fileName,
                1,
                1,
                $"the file is larger than {MostCharacters / 1_000_000} MB",
                "give a single piece"
            );
        try
        {
            var score = Parse(text);
            var log = new MessageLog(fileName);
            return new(new ScoreReader(score, log).Read(), log.Messages);
        }
        catch (XmlException wrong)
        {
            return BreakReading.Refused(
                fileName,
                Math.Max(1, wrong.LineNumber),
                Math.Max(1, wrong.LinePosition),
                "this is no XML, or broken XML",
                "write the file anew from the program it comes from"
            );
        }
    }

    /// <exception cref="XmlException">It is no XML.</exception>
    internal static XElement Parse(string text)
    {
        // Neither a document type's file nor any other is fetched, and no entity is expanded.
        var settings = new XmlReaderSettings { DtdProcessing = DtdProcessing.Ignore, XmlResolver = null };
        using var source = new StringReader(text.TrimStart('\uFEFF'));
        using var xml = XmlReader.Create(source, settings);
        return XDocument.Load(xml, LoadOptions.SetLineInfo).Root!;
    }

    internal static (int Line, int Column) Place(XObject node) =>
        node is IXmlLineInfo place && place.HasLineInfo() ? (place.LineNumber, place.LinePosition) : (1, 1);
}
