using System.Text;
using Rollwright.Formats.Json;
using Rollwright.Formats.Messages;
using Rollwright.Formats.MusicXml;
using Rollwright.Formats.TextTab;

namespace Rollwright.Formats;

/// <summary>Reads a break from any form that holds one, told apart by what the file begins with.</summary>
public static class BreakReader
{
    /// <param name="bytes">JSON, MusicXML plain or compressed, or plain-text tab.</param>
    /// <param name="fileName">For messages.</param>
    public static BreakReading Read(byte[] bytes, string fileName) =>
        MusicXmlReader.IsScore(bytes) ? MusicXmlReader.Read(bytes, fileName)
        : bytes.AsSpan().TrimStart("\uFEFF \t\r\n"u8).StartsWith("{"u8)
            ? JsonReader.Read(Encoding.UTF8.GetString(bytes), fileName)
        : TextTabReader.Read(Encoding.UTF8.GetString(bytes), fileName);
}
