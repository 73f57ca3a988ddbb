using System.Xml;
using System.Xml.Linq;
using Rollwright.Formats.Messages;
using Rollwright.Formats.MusicXml.Reading;

namespace Rollwright.Formats.MusicXml;

/// <summary>
/// Reads a break from MusicXML, plain or compressed, partwise or timewise, that holds five-string tab: notes with string and
/// fret, fingers, slurs, chords, repeats and endings. What this program wrote comes back whole.
/// </summary>
public static class MusicXmlReader
{
    /// <summary>Of a score, unpacked; a page of tab is some hundred thousand.</summary>
    public const int MostCharacters = 20_000_000;

    internal const string TooLarge = "the score is larger than 20 MB";

    /// <summary>Whether a file begins as a score does: as an archive, or with a tag, whatever its encoding.</summary>
    public static bool IsScore(ReadOnlySpan<byte> bytes) =>
        MxlFile.IsOne(bytes)
        || bytes.TrimStart("\uFEFF \t\r\n"u8).StartsWith("<"u8)
        || bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE, (byte)'<'])
        || bytes.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF, 0, (byte)'<']);

    /// <param name="bytes">A score, or a compressed one.</param>
    /// <param name="fileName">For messages.</param>
    /// <param name="part">Id or name of the part; null for the first with five-string tab.</param>
    public static BreakReading Read(byte[] bytes, string fileName, string? part = null)
    {
        var log = new MessageLog(fileName);
        return Read(ScoreFile.Open(bytes, log), part, log);
    }

    /// <inheritdoc cref="Read(byte[], string, string?)"/>
    public static BreakReading Read(string text, string fileName, string? part = null)
    {
        var log = new MessageLog(fileName);
        return Read(ScoreFile.Open(text, log), part, log);
    }

    private static BreakReading Read(ScoreFile? file, string? part, MessageLog log) =>
        new(file is null ? null : new ScoreReader(file, log).Read(part), log.Messages);

    internal static (int Line, int Column) Place(XObject node) =>
        node is IXmlLineInfo place && place.HasLineInfo() ? (place.LineNumber, place.LinePosition) : (1, 1);
}
