using System.Collections.Immutable;
using Rollwright.Lessons.Outputs;

namespace Rollwright.Cli.Files;

/// <summary>
/// Writes the documents of a lesson into a folder. What stands there already is overwritten only where the program wrote it
/// and nobody changed it since.
/// </summary>
internal static class LessonFolder
{
    /// <summary>A file and the document that it belongs to.</summary>
    internal readonly record struct Made(string Output, LessonFile File);

    /// <param name="folder">Where they go; it is made where it is missing.</param>
    /// <param name="files">Everything that the documents asked for consist of.</param>
    /// <param name="force">Overwrite what is a person's too.</param>
    /// <returns>Paths of files that were left as they are, because they are a person's.</returns>
    /// <exception cref="RequestException">The folder cannot be written to.</exception>
    public static IReadOnlyList<string> Write(string folder, IReadOnlyList<Made> files, bool force)
    {
        if (File.Exists(folder))
            throw new RequestException($"--out-dir {folder}: this is a file; name a folder");
        var known = FolderManifest.Read(folder).Files;
        var left = new List<string>();
        try
        {
            Directory.CreateDirectory(folder);
            try
            {
                foreach (var (output, file) in files)
                {
                    var digest = FolderManifest.DigestOf(file.Bytes);
                    var path = PathOf(folder, file.Path);
                    var there = DigestOf(path);
                    var isOurs =
                        there is null || there == digest || known.GetValueOrDefault(file.Path)?.Sha256 == there;
                    if (!isOurs && !force)
                    {
                        left.Add(path);
                        continue;
                    }
                    if (there != digest)
                        OutputFile.Write(path, file.Bytes);
                    known = known.SetItem(file.Path, new(output, digest));
                }
                known = DropOld(folder, files, known);
            }
            finally
            {
                // What was written before a fault (a full disk) is known the next time.
                new FolderManifest(known).Write(folder);
            }
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException)
        {
            throw new RequestException(
                $"--out-dir {folder}: cannot be written to ({fault.Message.TrimEnd('.')}); choose another folder"
            );
        }
        return left;
    }

    // A figure of yesterday that the lesson no longer has would be taken for one of today.
    private static ImmutableSortedDictionary<string, FolderManifest.Entry> DropOld(
        string folder,
        IReadOnlyList<Made> files,
        ImmutableSortedDictionary<string, FolderManifest.Entry> known
    )
    {
        var (outputs, paths) = (
            files.Select(one => one.Output).ToHashSet(),
            files.Select(one => one.File.Path).ToHashSet()
        );
        foreach (var (path, entry) in known)
        {
            if (!outputs.Contains(entry.Output) || paths.Contains(path))
                continue;
            if (DigestOf(PathOf(folder, path)) == entry.Sha256)
                File.Delete(PathOf(folder, path));
            known = known.Remove(path);
        }
        return known;
    }

    private static string PathOf(string folder, string path) => Path.Combine([folder, .. path.Split('/')]);

    private static string? DigestOf(string path) =>
        File.Exists(path) ? FolderManifest.DigestOf(File.ReadAllBytes(path)) : null;
}
