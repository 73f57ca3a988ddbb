namespace Rollwright.Cli.Files;

/// <summary>Reads what a command is given: a file, or standard input for "-".</summary>
internal static class InputFile
{
    /// <summary>No tune or break needs more; a larger file is a mistake (assumption).</summary>
    private const long MostBytes = 64_000_000;

    /// <exception cref="RequestException">There is no such file, or it is too large.</exception>
    public static byte[] Read(string path)
    {
        if (path == "-")
        {
            using var input = Console.OpenStandardInput();
            using var memory = new MemoryStream();
            input.CopyTo(memory);
            return memory.ToArray();
        }
        if (Directory.Exists(path))
            throw new RequestException($"{path}: this is a folder; name the files in it");
        if (!File.Exists(path))
            throw new RequestException($"{path}: there is no such file");
        if (new FileInfo(path).Length > MostBytes)
            throw new RequestException(
                $"{path}:1:1: the file is larger than {MostBytes / 1_000_000} MB; part it into smaller files"
            );
        return File.ReadAllBytes(path);
    }

    /// <summary>The name that messages and outputs carry.</summary>
    public static string NameOf(string path) => path == "-" ? "standard input" : path;

    public static string StemOf(string path) => path == "-" ? "break" : Path.GetFileNameWithoutExtension(path);
}
