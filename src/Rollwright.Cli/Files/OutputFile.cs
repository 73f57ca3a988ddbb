namespace Rollwright.Cli.Files;

/// <summary>Writes a file whole or not at all: under a temporary name beside it, then renamed.</summary>
internal static class OutputFile
{
    /// <summary>What the operating systems call a full disk: ENOSPC, EDQUOT, ERROR_DISK_FULL.</summary>
    private static readonly int[] FullDisk = [28, 122, unchecked((int)0x8007_0070)];

    /// <summary>Refuses a file that is larger than what is free where it goes, before it is made.</summary>
    /// <exception cref="RequestException">There is no room for it.</exception>
    public static void DemandRoom(string path, long bytes)
    {
        if (path == "-" || IsDevice(path))
            return;
        var folder = new DirectoryInfo(Path.GetDirectoryName(Path.GetFullPath(path))!);
        while (!folder.Exists && folder.Parent is { } parent)
            folder = parent;
        // Of a network path Windows does not say what is free.
        if (folder.FullName.StartsWith(@"\\", StringComparison.Ordinal))
            return;
        var free = new DriveInfo(folder.FullName).AvailableFreeSpace;
        if (bytes > free)
            throw new RequestException(
                $"{path}: this needs {bytes / 1e6:0.0} MB and {free / 1e6:0.0} MB are free; make room, or write elsewhere"
            );
    }

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
        if (IsDevice(path))
        {
            using var device = new FileStream(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, 0);
            device.Write(bytes);
            return;
        }
        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        MakeFolder(folder);
        var temporary = Path.Combine(folder, $".{Path.GetFileName(path)}.{Guid.NewGuid():N}.part");
        try
        {
            File.WriteAllBytes(temporary, bytes);
            File.Move(temporary, path, overwrite: true);
        }
        catch (IOException fault) when (FullDisk.Contains(fault.HResult))
        {
            File.Delete(temporary);
            throw new RequestException($"{path}: the disk is full; make room, or write elsewhere");
        }
        catch (UnauthorizedAccessException)
        {
            File.Delete(temporary);
            throw NotWritable(path);
        }
        catch
        {
            File.Delete(temporary);
            throw;
        }
    }

    // A folder where none can be, such as in /proc, is told as a file that was not found.
    private static void MakeFolder(string folder)
    {
        try
        {
            Directory.CreateDirectory(folder);
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or FileNotFoundException)
        {
            throw NotWritable(folder);
        }
    }

    private static RequestException NotWritable(string path) =>
        new($"{path}: this may not be written here; choose another place, or ask for the right to write to it");

    // A device is written to, never replaced.
    private static bool IsDevice(string path) => Path.GetFullPath(path).StartsWith("/dev/", StringComparison.Ordinal);
}
