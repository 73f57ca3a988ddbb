using System.IO.Compression;

namespace Rollwright.Library.Backups;

/// <summary>What another room keeps beside the library, in the same backup.</summary>
public interface IBackupPart
{
    /// <summary>Puts it into the backup.</summary>
    Task WriteAsync(ZipArchive zip);

    /// <summary>Adds what is missing, all or nothing; a backup that has none of it adds nothing.</summary>
    /// <exception cref="InvalidDataException">It is damaged.</exception>
    Task ReadAsync(ZipArchive zip);
}
