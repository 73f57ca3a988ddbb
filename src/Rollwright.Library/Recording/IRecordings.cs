using Rollwright.Library.Storage;

namespace Rollwright.Library.Recording;

/// <summary>
/// Where recordings lie, by their digest: the same recording lies there once. They are put before the take that names them and
/// removed after it, so that a program killed between leaves a recording without a take and never the other way round.
/// </summary>
internal interface IRecordings
{
    Task PutAsync(LibraryContext context, string digest, ReadOnlyMemory<byte> recording);

    /// <summary>Null where there is none.</summary>
    Task<ReadOnlyMemory<byte>?> GetAsync(LibraryContext context, string digest);

    Task RemoveAsync(LibraryContext context, string digest);
}
