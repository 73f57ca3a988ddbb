using System.Collections.Immutable;
using System.Text.Json;
using Rollwright.Arranging;
using Rollwright.Arranging.Backup;
using Rollwright.Arranging.Locks;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Web.State;

/// <summary>What is kept beside a break so that it comes back as it was: the wishes and the locks.</summary>
/// <param name="Key">As <see cref="Wishes.Key"/>, and so on.</param>
/// <param name="Version">A version instead of the break, by name; null for none.</param>
/// <param name="Nth">Which of its kind.</param>
/// <param name="Behind">A part behind someone instead; null for none.</param>
/// <param name="Locks">Of the break, as <see cref="LockText"/> writes them.</param>
/// <param name="OwnLocks">Of the version or the part, besides the break's.</param>
public sealed record Work(
    string? Key,
    string? Tuning,
    int? Capo,
    int? Octave,
    int Level,
    string? Style,
    double? SecondTime,
    string? Version,
    int Nth,
    BackupKind? Behind,
    ImmutableArray<string> Locks,
    ImmutableArray<string> OwnLocks
)
{
    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web);

    public static Work Of(Turn turn)
    {
        ArgumentNullException.ThrowIfNull(turn);
        var wishes = turn.Wishes;
        return new(
            wishes.Key,
            wishes.Tuning,
            wishes.Capo,
            wishes.Octave,
            wishes.Level,
            wishes.Style,
            wishes.SecondTime,
            (wishes.Instead as OtherVersion)?.Name,
            (wishes.Instead as OtherVersion)?.Nth ?? 1,
            (wishes.Instead as BehindSomeone)?.Kind,
            [.. turn.Break.Locks.Select(LockText.Write)],
            wishes.Instead is null ? [] : [.. turn.Arrangement.Locks.Except(turn.Break.Locks).Select(LockText.Write)]
        );
    }

    /// <summary>Null for a text that is none.</summary>
    public static Work? Read(string json)
    {
        try
        {
            var read = JsonSerializer.Deserialize<Work>(json, Form);
            return read is null ? null : read with { Locks = Some(read.Locks), OwnLocks = Some(read.OwnLocks) };
        }
        catch (JsonException)
        {
            return null;
        }
    }

    public string Write() => JsonSerializer.Serialize(this, Form);

    public Wishes Wishes =>
        new(
            Key,
            Tuning,
            Capo,
            Octave,
            Level,
            Style,
            SecondTime,
            Behind is { } kind ? new BehindSomeone(kind)
                : Version is { } name ? new OtherVersion(name, Nth)
                : null
        );

    /// <summary>The locks that this arrangement has a place for.</summary>
    public static ImmutableArray<Lock> LocksIn(Arrangement made, ImmutableArray<string> texts) =>
        [.. texts.Select(text => LockText.Read(text, made)).OfType<Lock>()];

    private static ImmutableArray<string> Some(ImmutableArray<string> texts) => texts.IsDefault ? [] : texts;
}
