using System.Xml.Linq;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Formats.MusicXml;

/// <summary>The notations of one note: ties, tuplets, and on the tab staff strings, frets, fingers and slurs.</summary>
internal sealed class Notations(Piece piece, Stroke stroke, bool isFirst, bool isTab)
{
    /// <summary>How far a choke is bent, in semitones; the break does not say (an assumption).</summary>
    private const int ChokeBend = 1;

    public static XElement? OfRest(Piece piece)
    {
        var tuplets = Tuplets(piece).ToList();
        return tuplets.Count > 0 ? new("notations", tuplets) : null;
    }

    /// <param name="start">The slur that leads on from this note.</param>
    public XElement? Write(SlurKind? start)
    {
        // A tied note is slurred on from its end, and slurred to at its start.
        var leads = piece.TieStart ? null : start;
        var comes = piece.TieStop ? null : stroke.Slur;
        List<XElement> parts =
        [
            .. piece.TieStop ? [Typed("tied", "stop")] : Array.Empty<XElement>(),
            .. piece.TieStart ? [Typed("tied", "start")] : Array.Empty<XElement>(),
            .. isFirst ? Tuplets(piece) : [],
        ];
        if (isTab)
        {
            parts.AddRange(Slides(comes, leads));
            parts.Add(Technical(comes, leads));
            if (stroke.IsMelody && !piece.TieStop)
                parts.Add(Typed("other-notation", "single", "melody"));
        }
        else
            parts.AddRange(Slurs(comes, leads));
        return parts.Count > 0 ? new("notations", parts) : null;
    }

    private static IEnumerable<XElement> Tuplets(Piece piece)
    {
        if (piece.TupletStop)
            yield return Typed("tuplet", "stop");
        if (piece.TupletStart)
            yield return Typed("tuplet", "start");
    }

    private IEnumerable<XElement> Slides(SlurKind? comes, SlurKind? leads)
    {
        if (comes == SlurKind.Slide)
            yield return Numbered("slide", "stop");
        if (leads == SlurKind.Slide)
            yield return Numbered("slide", "start");
    }

    // On the notation staff every slurred note hangs on a slur.
    private IEnumerable<XElement> Slurs(SlurKind? comes, SlurKind? leads)
    {
        if (comes is not null)
            yield return Numbered("slur", "stop");
        if (leads is not null)
            yield return Numbered("slur", "start");
    }

    private XElement Technical(SlurKind? comes, SlurKind? leads)
    {
        var technical = new XElement("technical");
        if (stroke.Left is { } finger && !piece.TieStop)
            technical.Add(new XElement("fingering", finger == 0 ? "T" : $"{finger}"));
        if (stroke.Right is { } right && !piece.TieStop)
            technical.Add(new XElement("pluck", right.ToString().ToLowerInvariant()));
        technical.Add(new XElement("fret", stroke.Fret), new XElement("string", stroke.String));
        if (Element(comes) is { } stop)
            technical.Add(Numbered(stop, "stop"));
        if (Element(leads) is { } begin)
            technical.Add(Numbered(begin, "start", begin == "hammer-on" ? "H" : "P"));
        if (comes == SlurKind.Choke)
            technical.Add(new XElement("bend", new XElement("bend-alter", ChokeBend)));
        return technical;
    }

    private static string? Element(SlurKind? kind) =>
        kind switch
        {
            SlurKind.HammerOn => "hammer-on",
            SlurKind.PullOff => "pull-off",
            _ => null,
        };

    // Slurs on different strings may overlap; the string tells them apart.
    private XElement Numbered(string name, string type, string? text = null) =>
        new(name, new XAttribute("number", stroke.String), new XAttribute("type", type), text);

    private static XElement Typed(string name, string type, string? text = null) =>
        new(name, new XAttribute("type", type), text);
}
