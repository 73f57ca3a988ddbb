using Rollwright.Banjo.Breaks;
using Rollwright.Cli.Commands;
using Rollwright.Formats;
using Rollwright.Formats.Messages;

namespace Rollwright.Cli.Files;

/// <summary>Reads a break from a file.</summary>
internal static class BreakInput
{
    /// <exception cref="RequestException">It cannot be read; the message is the reader's first.</exception>
    public static Break Read(string path) => Of(InputFile.Read(path), path);

    /// <summary>The break in the bytes of a file.</summary>
    /// <exception cref="RequestException">It cannot be read; the message is the reader's first.</exception>
    public static Break Of(byte[] bytes, string path)
    {
        var name = InputFile.NameOf(path);
        var reading = BreakReader.Read(bytes, name);
        if (reading.Break is { } found)
        {
            foreach (var message in reading.Messages)
                Exit.Say(message.ToString());
            return found;
        }
        var worst = reading.Messages.OrderByDescending(message => message.Severity == Severity.Error).FirstOrDefault();
        throw new RequestException(
            worst?.ToString() ?? $"{name}:1:1: this holds no break; give one in JSON, MusicXML or plain-text tab"
        );
    }
}
