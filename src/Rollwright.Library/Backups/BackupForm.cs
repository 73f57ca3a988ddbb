using System.Collections.Immutable;
using Rollwright.Library.Kept;

namespace Rollwright.Library.Backups;

/// <summary>What stands first in a backup.</summary>
/// <param name="Form">"rollwright-library".</param>
/// <param name="Version">Of the form; readers take their own and older ones.</param>
/// <param name="MadeAt">When.</param>
/// <param name="Tunes">How many.</param>
/// <param name="Breaks">How many.</param>
internal sealed record BackupManifest(string Form, int Version, DateTimeOffset MadeAt, int Tunes, int Breaks)
{
    public const string Name = "rollwright-library";
    public const int Newest = 1;
}

/// <summary>A break with all that belongs to it, in a file of its own.</summary>
internal sealed record BackupBreak(
    KeptBreak Break,
    ImmutableArray<Revision> Revisions,
    ImmutableArray<KeptPractice> Practice
);
