using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.MusicXml;

/// <summary>The published schema of MusicXML 4.0 (W3C Music Notation Community Group), asked through xmllint.</summary>
public static class MusicXmlSchema
{
    /// <summary>What xmllint finds wrong in the files; empty where all are valid.</summary>
    public static string Faults(IReadOnlyList<string> documents)
    {
        var schemas = Places.NeedShared("musicxml");
        var folder = Directory.CreateTempSubdirectory("musicxml");
        try
        {
            // The schema names the two schemas that it imports by their addresses; beside it they need no network.
            foreach (var file in Directory.GetFiles(schemas, "*.xsd"))
            {
                var text = File.ReadAllText(file)
                    .Replace("http://www.musicxml.org/xsd/", "", StringComparison.Ordinal)
                    .Replace("http://www.w3.org/2001/xml.xsd", "xml.xsd", StringComparison.Ordinal);
                File.WriteAllText(Path.Combine(folder.FullName, Path.GetFileName(file)), text);
            }
            var names = new List<string>();
            for (var i = 0; i < documents.Count; i++)
            {
                names.Add(Path.Combine(folder.FullName, $"{i}.musicxml"));
                File.WriteAllText(names[^1], documents[i]);
            }
            var schema = Path.Combine(folder.FullName, "musicxml.xsd");
            var (code, _, said) = Outside.Run("xmllint", ["--nonet", "--noout", "--schema", schema, .. names]);
            return code == 0
                ? ""
                : string.Join(
                    '\n',
                    said.Split('\n').Where(line => !line.EndsWith(" validates", StringComparison.Ordinal)).Take(10)
                );
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
