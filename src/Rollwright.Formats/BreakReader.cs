using System.Text;
using Rollwright.Formats.Json;
using Rollwright.Formats.Messages;
using Rollwright.Formats.MusicXml;

namespace Rollwright.Formats;

/// <summary>Reads a break from any form that holds one, told apart by what the file begins with.</summary>
public static class BreakReader
{
    /// <param name="bytes">JSON, or MusicXML plain or compressed.</param>
    /// <param name="fileName">For messages.</param>
    public static BreakReading Read(byte[] bytes, string fileName) =>
        MusicXmlReader.IsScore(bytes)
            ? MusicXmlReader.Read(bytes, fileName)
            : JsonReader.Read(Encoding.UTF8.GetString(bytes), fileName);
}
