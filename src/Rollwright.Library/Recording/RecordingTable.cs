using Microsoft.EntityFrameworkCore;
using Rollwright.Library.Storage;

namespace Rollwright.Library.Recording;

/// <summary>On a server, where nobody has a folder beside it that all can reach: a table of bytes.</summary>
internal sealed class RecordingTable : IRecordings
{
    public async Task PutAsync(LibraryContext context, string digest, ReadOnlyMemory<byte> recording)
    {
        var recordings = context.Set<RecordingRow>();
        if (recordings.Local.Any(row => row.Digest == digest) || await recordings.AnyAsync(row => row.Digest == digest))
            return;
        recordings.Add(new RecordingRow { Digest = digest, Bytes = recording.ToArray() });
    }

    public async Task<ReadOnlyMemory<byte>?> GetAsync(LibraryContext context, string digest) =>
        (await context.Set<RecordingRow>().AsNoTracking().SingleOrDefaultAsync(row => row.Digest == digest))?.Bytes
            is { } bytes
            ? bytes
            : (ReadOnlyMemory<byte>?)null;

    public Task RemoveAsync(LibraryContext context, string digest) =>
        context.Set<RecordingRow>().Where(row => row.Digest == digest).ExecuteDeleteAsync();
}
