using System.Collections.Immutable;
using Rollwright.Cli.Commands;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Tunes;

namespace Rollwright.Cli.Files;

/// <summary>Reads tunes from a file in ABC notation.</summary>
internal static class TuneInput
{
    /// <summary>The tunes of a file; what was left out of one is said, but the tune can still be had.</summary>
    /// <exception cref="RequestException">It holds no tune.</exception>
    public static ImmutableArray<Tune> ReadAll(string path) => AllOf(InputFile.Read(path), path);

    private static ImmutableArray<Tune> AllOf(byte[] bytes, string path)
    {
        var reading = AbcReader.Read(bytes, InputFile.NameOf(path));
        var errors = reading.Messages.Where(message => message.Severity == Severity.Error).ToArray();
        if (reading.Tunes.IsEmpty)
            throw new RequestException(
                errors.FirstOrDefault()?.ToString()
                    ?? $"{path}:1:1: this holds no tune; a tune begins with X: and K: lines"
            );
        foreach (var message in errors)
            Exit.Say(message.ToString());
        return reading.Tunes;
    }

    /// <summary>The one tune of a file.</summary>
    /// <exception cref="RequestException">It holds none, or several.</exception>
    public static Tune ReadOne(string path, string remedy) => OneOf(InputFile.Read(path), path, remedy);

    /// <summary>The one tune in the bytes of a file.</summary>
    /// <exception cref="RequestException">It holds none, or several.</exception>
    public static Tune OneOf(byte[] bytes, string path, string remedy)
    {
        var tunes = AllOf(bytes, path);
        return tunes.Length == 1
            ? tunes[0]
            : throw new RequestException($"{path}: the file holds {tunes.Length} tunes; {remedy}");
    }
}
