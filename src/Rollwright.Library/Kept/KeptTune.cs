using System.Collections.Immutable;
using Rollwright.Music.Tunes;

namespace Rollwright.Library.Kept;

/// <summary>A tune as it is kept.</summary>
/// <param name="Id">Its name for ever, in backups too.</param>
/// <param name="Title">As the source has it.</param>
/// <param name="Abc">The text as it came.</param>
/// <param name="Key">"G major".</param>
/// <param name="Metre">"2/2".</param>
/// <param name="Composer">Or "traditional" as the source says; may be empty.</param>
/// <param name="Source">The file that it came from; may be empty.</param>
/// <param name="Tags">The person's own words for it.</param>
/// <param name="Fingerprint">The same for the same melody in any key; see <see cref="TuneFingerprint"/>.</param>
/// <param name="AddedAt">When it came.</param>
public sealed record KeptTune(
    Guid Id,
    string Title,
    string Abc,
    string Key,
    string Metre,
    string Composer,
    string Source,
    ImmutableArray<string> Tags,
    string Fingerprint,
    DateTimeOffset AddedAt
)
{
    /// <summary>A tune that is to be kept from now on.</summary>
    /// <param name="tune">What was read of it.</param>
    /// <param name="abc">Its text.</param>
    /// <param name="source">Where it comes from; may be empty.</param>
    /// <param name="tags">The person's own words for it.</param>
    /// <param name="now">When it comes.</param>
    public static KeptTune Of(Tune tune, string abc, string source, ImmutableArray<string> tags, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(tune);
        return new(
            Guid.CreateVersion7(now),
            tune.Title,
            abc,
            $"{tune.Key}",
            $"{tune.Time}",
            tune.Composer,
            source,
            tags,
            TuneFingerprint.Of(tune),
            now
        );
    }
}
