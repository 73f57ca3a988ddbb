using System.Collections.Immutable;
using Rollwright.Library.Kept;
using Rollwright.Library.Storage;

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
    public const int Newest = 3;
}

/// <summary>A break with all that belongs to it, in a file of its own.</summary>
internal sealed record BackupBreak(
    KeptBreak Break,
    ImmutableArray<Revision> Revisions,
    ImmutableArray<KeptPractice> Practice
);

/// <summary>What a restore added; what was there already is not counted.</summary>
public sealed record Restored(int Tunes, int Breaks, int Licks, int Lessons, int Takes)
{
    /// <summary>"40 tunes, 1 break"; "nothing new" for nothing.</summary>
    public string Words
    {
        get
        {
            var parts = new[]
            {
                (Tunes, "tune"),
                (Breaks, "break"),
                (Licks, "lick"),
                (Lessons, "lesson"),
                (Takes, "take"),
            }
                .Where(part => part.Item1 > 0)
                .Select(part => $"{part.Item1} {part.Item2}{(part.Item1 == 1 ? "" : "s")}")
                .ToList();
            return parts.Count == 0 ? "nothing new" : string.Join(", ", parts);
        }
    }
}

/// <summary>Everything that a backup holds, read.</summary>
internal sealed record BackupContent(
    ImmutableArray<KeptTune> Tunes,
    ImmutableArray<BackupBreak> Breaks,
    ImmutableArray<KeptLick> Licks,
    ImmutableArray<KeptLesson> Lessons,
    ImmutableArray<KeptTake> Takes,
    ImmutableArray<SetAsideLickRow> SetAside,
    IReadOnlyDictionary<Guid, string> Owners
);
