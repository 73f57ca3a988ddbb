using System.Collections.Immutable;
using System.Text;
using Rollwright.Engraving.Drawing;
using Rollwright.Lessons.Documents;

namespace Rollwright.Cli.Files;

/// <summary>Reads a text in Markdown that a person wrote, with the pictures beside it.</summary>
internal static class IntroductionFile
{
    // A text longer than a book is a mistake (assumption).
    private const int MostBytes = 1_000_000;

    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);

    /// <exception cref="RequestException">It is no text, or one of its pictures cannot be taken; with line and column.</exception>
    public static Introduction Read(string path)
    {
        var text = TextOf(path);
        var pictures = ImmutableDictionary.CreateBuilder<string, PictureFile>(StringComparer.Ordinal);
        foreach (var (address, line, column) in Introduction.PicturesIn(text))
        {
            if (pictures.ContainsKey(address))
                continue;
            var where = $"{InputFile.NameOf(path)}:{line}:{column}";
            var file =
                Introduction.PathOf(address)
                ?? throw new RequestException(
                    $"{where}: '{address}' is no picture beside the text; put it there under a name of its own"
                );
            pictures[address] = PictureAt(
                Path.Combine(path == "-" ? "" : Path.GetDirectoryName(path) ?? "", file),
                where
            );
        }
        return new(text, pictures.ToImmutable());
    }

    /// <summary>A text in UTF-8.</summary>
    /// <exception cref="RequestException">It is none, or too long.</exception>
    public static string TextOf(string path)
    {
        var bytes = InputFile.Read(path);
        if (bytes.Length > MostBytes)
            throw new RequestException(
                $"{InputFile.NameOf(path)}: the text has {bytes.Length / 1000} kB, and {MostBytes / 1000} are the most"
            );
        try
        {
            return Strict.GetString(bytes).TrimStart('\uFEFF');
        }
        catch (DecoderFallbackException fault)
        {
            throw new RequestException(
                $"{InputFile.NameOf(path)}: byte {fault.Index} is no UTF-8; save the text as UTF-8"
            );
        }
    }

    private static PictureFile PictureAt(string path, string where)
    {
        try
        {
            return PictureFile.Read(InputFile.Read(path));
        }
        catch (Exception fault) when (fault is InvalidDataException or RequestException)
        {
            throw new RequestException($"{where}: {fault.Message}");
        }
    }
}
