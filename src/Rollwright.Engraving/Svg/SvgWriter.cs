using System.Globalization;
using System.Text;
using System.Xml;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Png;

namespace Rollwright.Engraving.Svg;

/// <summary>
/// Writes one page as SVG 1.1 with real text. Each tab number stands in a group with the id <c>s-BAR-STROKE</c>
/// (its line for melody notes with it) and each note head in one with the id <c>n-BAR-STROKE</c>, indices as in the
/// break; <c>data-at</c> is the time in whole notes from the bar's start.
/// </summary>
public static class SvgWriter
{
    private const string Namespace = "http://www.w3.org/2000/svg";

    /// <param name="layout">What to print.</param>
    /// <param name="page">Index of the page.</param>
    /// <param name="options">How; the defaults suit a file of its own.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such page.</exception>
    public static string Write(Layout layout, int page = 0, SvgOptions? options = null)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(page);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(page, layout.Pages.Length);
        options ??= new();
        var text = new StringBuilder();
        var settings = new XmlWriterSettings
        {
            OmitXmlDeclaration = true,
            Indent = true,
            IndentChars = "",
            NewLineChars = "\n",
            CheckCharacters = false,
        };
        using (var xml = XmlWriter.Create(text, settings))
            WritePage(xml, layout, layout.Pages[page], options);
        return text.Append('\n').ToString();
    }

    private static void WritePage(XmlWriter xml, Layout layout, LaidPage page, SvgOptions options)
    {
        xml.WriteStartElement("svg", Namespace);
        xml.WriteAttributeString("viewBox", $"0 0 {SvgPath.Of(page.Width)} {SvgPath.Of(page.Height)}");
        if (options.FixedSize)
        {
            xml.WriteAttributeString("width", $"{SvgPath.Of(page.Width)}pt");
            xml.WriteAttributeString("height", $"{SvgPath.Of(page.Height)}pt");
        }
        xml.WriteAttributeString("class", "engraving");
        xml.WriteAttributeString("role", "img");
        xml.WriteAttributeString("aria-labelledby", $"{options.Prefix}title {options.Prefix}desc");
        WriteWords(xml, "title", options.Prefix, layout.Title);
        WriteWords(xml, "desc", options.Prefix, layout.Words);
        xml.WriteElementString("style", Namespace, SvgStyle.Of(options, page.Inks.OfType<Words>()));
        WriteSigns(xml, page, options);
        if (options.Plate > 0)
            WritePlate(xml, page, options.Plate);
        var places = layout.Strokes.ToDictionary(place => place.Stroke);
        foreach (var group in Groups(page))
            WriteGroup(xml, group, places, options);
        xml.WriteEndElement();
    }

    private static void WritePlate(XmlWriter xml, LaidPage page, double opacity)
    {
        xml.WriteStartElement("rect", Namespace);
        xml.WriteAttributeString("class", "plate");
        xml.WriteAttributeString("width", SvgPath.Of(page.Width));
        xml.WriteAttributeString("height", SvgPath.Of(page.Height));
        xml.WriteAttributeString("rx", SvgPath.Of(StripPictures.Corner));
        xml.WriteAttributeString("fill", "#fff");
        xml.WriteAttributeString("fill-opacity", SvgPath.Of(opacity));
        xml.WriteEndElement();
    }

    private static void WriteWords(XmlWriter xml, string element, string prefix, string text)
    {
        xml.WriteStartElement(element, Namespace);
        xml.WriteAttributeString("id", prefix + element);
        xml.WriteString(Printable(text));
        xml.WriteEndElement();
    }

    // Each sign is written once for each of its sizes.
    private static void WriteSigns(XmlWriter xml, LaidPage page, SvgOptions options)
    {
        xml.WriteStartElement("defs", Namespace);
        foreach (var (glyph, space) in page.Inks.OfType<Sign>().Select(sign => (sign.Glyph, sign.Space)).Distinct())
        {
            xml.WriteStartElement("path", Namespace);
            xml.WriteAttributeString("id", SignId(glyph, space, options));
            xml.WriteAttributeString("d", SvgPath.Of(glyph, space));
            xml.WriteEndElement();
        }
        xml.WriteEndElement();
    }

    private static string SignId(Glyph glyph, double space, SvgOptions options) =>
        string.Create(CultureInfo.InvariantCulture, $"{options.Prefix}g{glyph.CodePoint:X4}-{space * 100:0}");

    // Neighbours of one kind (and one stroke) stand in one group.
    private static IEnumerable<List<Ink>> Groups(LaidPage page)
    {
        var group = new List<Ink>();
        foreach (var ink in page.Inks)
        {
            var joins = group.Count > 0 && Belongs(group[0], ink);
            if (group.Count > 0 && !joins)
            {
                yield return group;
                group = [];
            }
            group.Add(ink);
        }
        if (group.Count > 0)
            yield return group;
    }

    private static bool Belongs(Ink first, Ink ink) =>
        first.Stroke == ink.Stroke
        && (first.Kind == ink.Kind || (first.Kind == InkKind.TabNumber && ink.Kind == InkKind.MelodyLine));

    private static void WriteGroup(
        XmlWriter xml,
        List<Ink> group,
        Dictionary<StrokeName, StrokePlace> places,
        SvgOptions options
    )
    {
        xml.WriteStartElement("g", Namespace);
        if (group[0].Stroke is { } stroke)
        {
            var letter = group[0].Kind == InkKind.NoteHead ? 'n' : 's';
            xml.WriteAttributeString("id", $"{options.Prefix}{letter}-{stroke}");
            if (places.TryGetValue(stroke, out var place))
                xml.WriteAttributeString("data-at", $"{place.At}");
        }
        xml.WriteAttributeString("class", SvgStyle.ClassOf(group[0].Kind));
        foreach (var ink in group)
            WriteInk(xml, ink, options);
        xml.WriteEndElement();
    }

    private static void WriteInk(XmlWriter xml, Ink ink, SvgOptions options)
    {
        switch (ink)
        {
            case Rules rules:
                xml.WriteStartElement("path", Namespace);
                xml.WriteAttributeString("class", "rule");
                xml.WriteAttributeString("stroke-width", SvgPath.Of(rules.Thickness));
                xml.WriteAttributeString("d", SvgPath.Of(rules));
                xml.WriteEndElement();
                break;
            case Shape shape:
                xml.WriteStartElement("path", Namespace);
                xml.WriteAttributeString("d", SvgPath.Of(shape));
                xml.WriteEndElement();
                break;
            case Sign sign:
                xml.WriteStartElement("use", Namespace);
                xml.WriteAttributeString("href", "#" + SignId(sign.Glyph, sign.Space, options));
                xml.WriteAttributeString("x", SvgPath.Of(sign.X));
                xml.WriteAttributeString("y", SvgPath.Of(sign.Y));
                xml.WriteEndElement();
                break;
            case Picture picture:
                xml.WriteStartElement("image", Namespace);
                xml.WriteAttributeString("x", SvgPath.Of(picture.Box.Left));
                xml.WriteAttributeString("y", SvgPath.Of(picture.Box.Top));
                xml.WriteAttributeString("width", SvgPath.Of(picture.Box.Width));
                xml.WriteAttributeString("height", SvgPath.Of(picture.Box.Height));
                xml.WriteAttributeString(
                    "href",
                    $"data:{picture.Image.MediaType};base64,{Convert.ToBase64String(picture.Image.Bytes)}"
                );
                xml.WriteEndElement();
                break;
            case Words words:
                WriteText(xml, words);
                break;
        }
    }

    private static void WriteText(XmlWriter xml, Words words)
    {
        xml.WriteStartElement("text", Namespace);
        xml.WriteAttributeString("class", SvgStyle.ClassOf(words.Face));
        xml.WriteAttributeString("font-size", SvgPath.Of(words.Size));
        if (words.Anchor != Anchor.Left)
            xml.WriteAttributeString("text-anchor", words.Anchor == Anchor.Middle ? "middle" : "end");
        xml.WriteAttributeString("x", SvgPath.Of(words.X));
        xml.WriteAttributeString("y", SvgPath.Of(words.Y));
        xml.WriteString(Printable(words.Text));
        xml.WriteEndElement();
    }

    // What XML 1.0 cannot hold (control characters, halves of pairs) is shown as the sign for what is missing.
    private static string Printable(string text)
    {
        if (text.All(XmlConvert.IsXmlChar))
            return text;
        var clean = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
            clean.Append(rune.Value >= 0x10000 || XmlConvert.IsXmlChar((char)rune.Value) ? rune.ToString() : "\uFFFD");
        return clean.ToString();
    }
}
