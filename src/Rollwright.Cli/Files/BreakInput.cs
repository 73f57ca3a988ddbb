using System.Text;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Json;
using Rollwright.Formats.Messages;
using Rollwright.Formats.MusicXml;

namespace Rollwright.Cli.Files;

/// <summary>Reads a break from JSON or MusicXML, told apart by what the text begins with.</summary>
internal static class BreakInput
{
    /// <exception cref="RequestException">It cannot be read; the message is the reader's first.</exception>
    public static Break Read(string path)
    {
        var text = Encoding.UTF8.GetString(InputFile.Read(path)).TrimStart('\uFEFF');
        var name = InputFile.NameOf(path);
        var reading = text.AsSpan().TrimStart().StartsWith("<")
            ? MusicXmlReader.Read(text, name)
            : JsonReader.Read(text, name);
        if (reading.Break is { } found)
            return found;
        var worst = reading.Messages.OrderByDescending(message => message.Severity == Severity.Error).FirstOrDefault();
        throw new RequestException(
            worst?.ToString() ?? $"{name}:1:1: this holds no break; give one in JSON or MusicXML"
        );
    }
}
