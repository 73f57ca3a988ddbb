using System.IO.Compression;
using System.Text;
using System.Xml;
using System.Xml.Linq;
using Rollwright.Formats.MusicXml.Reading;

namespace Rollwright.Formats.MusicXml;

/// <summary>
/// Compressed MusicXML (.mxl): a zip archive with <c>mimetype</c> first and not compressed, <c>META-INF/container.xml</c> that
/// names the score in its first <c>rootfile</c>, and the score (container reference of MusicXML 4.0, W3C Music Notation
/// Community Group).
/// </summary>
public static class MxlFile
{
    /// <summary>Of the archive; a score is some ten thousand (our own bound).</summary>
    public const int MostBytes = 10_000_000;

    private const string Container = "META-INF/container.xml";
    private const string ScoreName = "score.musicxml";
    private const string ArchiveType = "application/vnd.recordare.musicxml";
    private const string ScoreType = ArchiveType + "+xml";
    private const int MostContainer = 100_000;

    // Archives of the same score are the same bytes; zip knows no earlier time.
    private static readonly DateTimeOffset Always = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>Whether bytes begin as a zip archive does.</summary>
    public static bool IsOne(ReadOnlySpan<byte> bytes) => bytes.StartsWith("PK\u0003\u0004"u8);

    /// <param name="score">As <see cref="MusicXmlWriter"/> writes it.</param>
    public static byte[] Write(string score)
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(zip, "mimetype", ArchiveType, CompressionLevel.NoCompression);
            Add(
                zip,
                Container,
                $"""
                <?xml version="1.0" encoding="UTF-8"?>
                <container>
                 <rootfiles>
                  <rootfile full-path="{ScoreName}" media-type="{ScoreType}"/>
                 </rootfiles>
                </container>

                """,
                CompressionLevel.Optimal
            );
            Add(zip, ScoreName, score, CompressionLevel.Optimal);
        }
        return stream.ToArray();
    }

    /// <summary>The score's bytes, or what is wrong and what to do. No more is unpacked than a score may have.</summary>
    internal static (byte[]? Score, string What, string Remedy) Read(byte[] bytes)
    {
        const string again = "save it again as .mxl or .musicxml";
        if (bytes.Length > MostBytes)
            return (null, $"the archive is larger than {MostBytes / 1_000_000} MB", "give a single piece");
        try
        {
            using var zip = new ZipArchive(new MemoryStream(bytes, writable: false), ZipArchiveMode.Read);
            if (zip.GetEntry(Container) is not { } container)
                return (null, $"the archive has no {Container}, which names the score in it", again);
            if (Unpack(container, MostContainer) is not { } list)
                return (null, $"{Container} is larger than any list of files", again);
            if (ScoreIn(list) is not { } name || zip.GetEntry(name) is not { } entry)
                return (null, $"{Container} names no score that the archive holds", again);
            return Unpack(entry, MusicXmlReader.MostCharacters) is { } score
                ? (score, "", "")
                : (null, MusicXmlReader.TooLarge, "give a single piece");
        }
        catch (Exception wrong) when (wrong is InvalidDataException or IOException or NotSupportedException)
        {
            return (null, "the archive is cut off or broken", again);
        }
        catch (XmlException)
        {
            return (null, $"{Container} is broken", again);
        }
    }

    private static void Add(ZipArchive zip, string name, string text, CompressionLevel level)
    {
        var entry = zip.CreateEntry(name, level);
        entry.LastWriteTime = Always;
        using var stream = entry.Open();
        stream.Write(Encoding.UTF8.GetBytes(text));
    }

    // What an entry says of its size may be a lie: it is counted while it is unpacked. Null where there is more.
    private static byte[]? Unpack(ZipArchiveEntry entry, int most)
    {
        using var stream = entry.Open();
        using var memory = new MemoryStream();
        var buffer = new byte[81920];
        for (int read; (read = stream.Read(buffer)) > 0; )
        {
            if (memory.Length + read > most)
                return null;
            memory.Write(buffer, 0, read);
        }
        return memory.ToArray();
    }

    private static string? ScoreIn(byte[] container)
    {
        using var stream = new MemoryStream(container);
        using var xml = XmlReader.Create(stream, ScoreFile.Settings);
        return (string?)
            XDocument
                .Load(xml)
                .Descendants()
                .FirstOrDefault(one => one.Name.LocalName == "rootfile")
                ?.Attribute("full-path");
    }
}
