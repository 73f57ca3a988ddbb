using System.Diagnostics;

namespace Rollwright.EndToEnd;

/// <summary>
/// A file system of a megabyte in memory (tmpfs) that a test can fill; skips the running test with a notice where none may be
/// mounted.
/// </summary>
internal sealed class SmallDisk : IDisposable
{
    private readonly string filler;

    private SmallDisk(string folder)
    {
        Folder = folder;
        filler = Path.Combine(folder, "filler");
    }

    public string Folder { get; }

    public static SmallDisk Mount()
    {
        var folder = Directory.CreateTempSubdirectory("rollwright-disk").FullName;
        Assert.SkipUnless(
            Call("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", folder),
            "needs the right to mount a small file system (root), which is not given here"
        );
        return new(folder);
    }

    /// <summary>Takes all the room there is.</summary>
    public void Fill()
    {
        using var stream = new FileStream(filler, FileMode.Append, FileAccess.Write, FileShare.None, 0);
        var block = new byte[512];
        try
        {
            while (true)
                stream.Write(block);
        }
        catch (IOException)
        {
            // No room is left, which was the aim.
        }
    }

    public void MakeRoom() => File.Delete(filler);

    public void Dispose()
    {
        Call("umount", Folder);
        Directory.Delete(Folder);
    }

    private static bool Call(string program, params string[] arguments)
    {
        try
        {
            using var process = Process.Start(
                new ProcessStartInfo(program, arguments) { RedirectStandardError = true, UseShellExecute = false }
            )!;
            process.StandardError.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}
