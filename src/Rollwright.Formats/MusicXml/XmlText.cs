using System.Xml;

namespace Rollwright.Formats.MusicXml;

/// <summary>Text that XML can carry: titles come from anywhere.</summary>
internal static class XmlText
{
    public static string Clean(string text) =>
        text.All(XmlConvert.IsXmlChar) ? text : new([.. text.Where(XmlConvert.IsXmlChar)]);
}
