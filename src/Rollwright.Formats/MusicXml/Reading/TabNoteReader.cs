using System.Xml.Linq;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>Reads what both hands do at one tab note.</summary>
internal static class TabNoteReader
{
    public static Stroke Read(
        XElement note,
        XElement technical,
        Fraction at,
        Fraction length,
        int banjoString,
        int fret
    )
    {
        RightFinger? right = ((string?)technical.Element("pluck"))?.Trim().ToUpperInvariant() switch
        {
            "T" => RightFinger.T,
            "I" => RightFinger.I,
            "M" => RightFinger.M,
            _ => null,
        };
        return new()
        {
            At = at,
            Length = length,
            String = banjoString,
            Fret = fret,
            Right = right,
            Slur = Slur(note, technical, right),
            Left = Left((string?)technical.Element("fingering")),
            IsMelody = note.Descendants("other-notation").Any(one => one.Value == "melody"),
        };
    }

    private static SlurKind? Slur(XElement note, XElement technical, RightFinger? right) =>
        Stops(technical, "hammer-on") ? SlurKind.HammerOn
        : Stops(technical, "pull-off") ? SlurKind.PullOff
        : note.Elements("notations").Any(one => Stops(one, "slide") || Stops(one, "glissando")) ? SlurKind.Slide
        : right is null && technical.Element("bend") is not null ? SlurKind.Choke
        : null;

    private static bool Stops(XElement parent, string name) =>
        parent.Elements(name).Any(one => (string?)one.Attribute("type") == "stop");

    private static int? Left(string? fingering) =>
        fingering?.Trim() switch
        {
            "T" or "t" or "0" => 0,
            "1" => 1,
            "2" => 2,
            "3" => 3,
            "4" => 4,
            _ => null,
        };
}
