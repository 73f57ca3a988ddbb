using System.Xml;
using System.Xml.Linq;
using Rollwright.Formats.Messages;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>
/// A score that is looked through before anything of it is kept: which parts it has, and how large they are. Only the part
/// that is wanted is then built, so that memory stays bounded whatever the file holds. Timewise scores are read as well.
/// </summary>
internal sealed class ScoreFile
{
    /// <summary>Elements of one part with the head; a note has ten to thirty (our own bound).</summary>
    public const int MostElements = 250_000;

    /// <summary>Notes of a part; more is an orchestra's evening.</summary>
    public const int MostNotes = 20_000;

    private const int MostDepth = 64;
    private const int MostParts = 1000;

    private readonly Func<XmlReader> open;
    private readonly List<ScorePart> parts = [];
    private bool isTimewise;

    private ScoreFile(Func<XmlReader> open) => this.open = open;

    /// <summary>In the order of the score.</summary>
    public IReadOnlyList<ScorePart> Parts => parts;

    /// <summary>Where the score begins.</summary>
    public (int Line, int Column) Place { get; private set; } = (1, 1);

    /// <summary>Neither a document type's file nor any other is fetched, and no entity is expanded.</summary>
    public static XmlReaderSettings Settings { get; } =
        new()
        {
            DtdProcessing = DtdProcessing.Ignore,
            XmlResolver = null,
            MaxCharactersInDocument = MusicXmlReader.MostCharacters,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
            IgnoreWhitespace = true,
        };

    /// <summary>Looks through a score, plain or compressed; null, and a message, where it cannot be read.</summary>
    public static ScoreFile? Open(byte[] bytes, MessageLog log)
    {
        if (MxlFile.IsOne(bytes))
        {
            var (score, what, remedy) = MxlFile.Read(bytes);
            if (score is null)
            {
                log.Error(1, 1, what, remedy);
                return null;
            }
            bytes = score;
        }
        return bytes.Length > MusicXmlReader.MostCharacters
            ? TooLarge(log)
            : Open(() => XmlReader.Create(new MemoryStream(bytes, writable: false), Settings), log);
    }

    public static ScoreFile? Open(string text, MessageLog log) =>
        text.Length > MusicXmlReader.MostCharacters
            ? TooLarge(log)
            : Open(() => XmlReader.Create(new StringReader(text.TrimStart('\uFEFF')), Settings), log);

    /// <summary>The score as partwise, with its head and one part, the places of its elements kept.</summary>
    public XElement Load(ScorePart part)
    {
        using var xml = open();
        xml.MoveToContent();
        var score = new XElement("score-partwise");
        var loaded = new XElement("part", new XAttribute("id", part.Id));
        xml.Read();
        while (!xml.EOF && xml.NodeType != XmlNodeType.EndElement)
        {
            if (xml.NodeType != XmlNodeType.Element)
                xml.Read();
            else if (isTimewise && xml.LocalName == "measure")
                loaded.Add(Measure(xml, part));
            else if (xml.LocalName != "part" || isTimewise)
                score.Add(Element(xml));
            else if (xml.GetAttribute("id") == part.Id)
                loaded.Add(Detached(Element(xml)));
            else
                xml.Skip();
        }
        score.Add(loaded);
        return score;
    }

    private static ScoreFile? TooLarge(MessageLog log)
    {
        log.Error(1, 1, MusicXmlReader.TooLarge, "give a single piece");
        return null;
    }

    private static ScoreFile? Open(Func<XmlReader> open, MessageLog log)
    {
        var file = new ScoreFile(open);
        try
        {
            using var xml = open();
            return file.Survey(xml, log) ? file : null;
        }
        catch (XmlException wrong)
        {
            log.Error(
                Math.Max(1, wrong.LineNumber),
                Math.Max(1, wrong.LinePosition),
                "this is no XML, or broken XML",
                "write the file anew from the program it comes from"
            );
            return null;
        }
    }

    private bool Survey(XmlReader xml, MessageLog log)
    {
        xml.MoveToContent();
        var (line, column) = Place = PlaceOf(xml);
        isTimewise = xml.LocalName == "score-timewise";
        if (!isTimewise && xml.LocalName != "score-partwise")
        {
            log.Error(line, column, $"<{xml.LocalName}> is no score", "save it as MusicXML, partwise");
            return false;
        }
        ScorePart? within = null;
        ScorePart? named = null;
        var head = 0;
        while (xml.Read())
        {
            if (xml.NodeType == XmlNodeType.Text && named is not null)
                named.Name += xml.Value.Trim();
            if (xml.NodeType != XmlNodeType.Element)
                continue;
            var fault = xml.Depth > MostDepth ? "elements stand deeper in one another than any score has them" : null;
            if (xml.LocalName == "part" && xml.Depth == (isTimewise ? 2 : 1))
                within = PartOf(xml.GetAttribute("id") ?? "", xml);
            else if (xml.Depth == 1)
                within = null;
            if (xml.LocalName == "score-part")
                within = PartOf(xml.GetAttribute("id") ?? "", xml);
            named = xml.LocalName == "part-name" ? within : null;
            head += within is null ? 1 : 0;
            within?.Count(xml.LocalName);
            if (parts.Count > MostParts)
                fault = $"more than {MostParts} parts";
            if (head > MostElements || within is { Elements: > MostElements } or { Notes: > MostNotes })
                fault = $"more than {MostNotes} notes in a part, or {MostElements} elements";
            if (fault is null)
                continue;
            (line, column) = PlaceOf(xml);
            log.Error(line, column, fault, "give a single piece");
            return false;
        }
        return true;
    }

    private ScorePart PartOf(string id, XmlReader xml)
    {
        if (parts.Find(part => part.Id == id) is { } known)
            return known;
        parts.Add(new(id, PlaceOf(xml)));
        return parts[^1];
    }

    private static XElement Element(XmlReader xml)
    {
        XElement element;
        using (var tree = xml.ReadSubtree())
            element = XElement.Load(tree, LoadOptions.SetLineInfo);
        xml.Read();
        return element;
    }

    private static XElement Measure(XmlReader xml, ScorePart part)
    {
        var measure = Element(xml);
        var own = measure.Elements("part").FirstOrDefault(one => (string?)one.Attribute("id") == part.Id);
        own?.Remove();
        measure.RemoveNodes();
        if (own is not null)
            measure.Add(Detached(own));
        return measure;
    }

    // Only what has no parent is taken over as it is; anything else would be copied, without its place in the text.
    private static XElement[] Detached(XElement parent)
    {
        var elements = parent.Elements().ToArray();
        parent.RemoveNodes();
        return elements;
    }

    private static (int Line, int Column) PlaceOf(XmlReader xml) =>
        xml is IXmlLineInfo place && place.HasLineInfo() ? (place.LineNumber, place.LinePosition) : (1, 1);
}
