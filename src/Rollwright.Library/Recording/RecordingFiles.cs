using Rollwright.Library.Storage;

namespace Rollwright.Library.Recording;

/// <summary>In a folder beside the library's file, one file a recording: large things that never change need no database.</summary>
internal sealed class RecordingFiles(string folder) : IRecordings
{
    public async Task PutAsync(LibraryContext context, string digest, ReadOnlyMemory<byte> recording)
    {
        var path = PathOf(digest);
        if (File.Exists(path))
            return;
        Directory.CreateDirectory(folder);
        var beside = $"{path}.part";
        await using (var stream = new FileStream(beside, FileMode.Create, FileAccess.Write, FileShare.None))
        {
            await stream.WriteAsync(recording);
            stream.Flush(flushToDisk: true);
        }
        File.Move(beside, path, overwrite: true);
    }

    public async Task<ReadOnlyMemory<byte>?> GetAsync(LibraryContext context, string digest) =>
        File.Exists(PathOf(digest)) ? await File.ReadAllBytesAsync(PathOf(digest)) : (ReadOnlyMemory<byte>?)null;

    public Task RemoveAsync(LibraryContext context, string digest)
    {
        File.Delete(PathOf(digest));
        return Task.CompletedTask;
    }

    // Digests are made here of bytes, never taken from a name that someone else chose.
    private string PathOf(string digest) => Path.Combine(folder, digest);
}
