namespace Rollwright.Cli.Files;

/// <summary>Writes a file whole or not at all: under a temporary name beside it, then renamed.</summary>
internal static class OutputFile
{
    /// <param name="path">Where it goes; "-" is standard output.</param>
    /// <param name="bytes">All of it.</param>
    public static void Write(string path, byte[] bytes)
    {
        if (path == "-")
        {
            using var output = Console.OpenStandardOutput();
            output.Write(bytes);
            return;
        }
        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        Directory.CreateDirectory(folder);
        var temporary = Path.Combine(folder, $".{Path.GetFileName(path)}.{Guid.NewGuid():N}.part");
        try
        {
            File.WriteAllBytes(temporary, bytes);
            File.Move(temporary, path, overwrite: true);
        }
        catch
        {
            File.Delete(temporary);
            throw;
        }
    }
}
