namespace Rollwright.Library.Storage;

// Rows of the tables; they never leave the room. Numbers are the database's own, ids are for ever.

/// <summary>A row that belongs to somebody.</summary>
internal interface IOwned
{
    /// <summary>Empty: the one person of a file, or nobody's in particular; filled in when it is kept.</summary>
    string Owner { get; set; }
}

internal sealed class TuneRow : IOwned
{
    public string Owner { get; set; } = "";
    public long Number { get; set; }
    public Guid Id { get; set; }
    public required string Title { get; set; }
    public required string Abc { get; set; }
    public required string Key { get; set; }
    public required string Metre { get; set; }
    public required string Composer { get; set; }
    public required string Source { get; set; }

    /// <summary>Parted by line ends.</summary>
    public required string Tags { get; set; }
    public required string Fingerprint { get; set; }

    /// <summary>Letters without accents, small: what search looks in.</summary>
    public required string SearchText { get; set; }
    public DateTimeOffset AddedAt { get; set; }
}

internal sealed class BreakRow : IOwned
{
    public string Owner { get; set; } = "";
    public long Number { get; set; }
    public Guid Id { get; set; }
    public Guid Tune { get; set; }
    public required string Title { get; set; }
    public int Current { get; set; }
    public DateTimeOffset ChangedAt { get; set; }
}

internal sealed class RevisionRow : IOwned
{
    public string Owner { get; set; } = "";
    public Guid Break { get; set; }
    public int Number { get; set; }
    public int? Parent { get; set; }
    public DateTimeOffset At { get; set; }
    public required string By { get; set; }
    public required string Words { get; set; }
    public required string Wishes { get; set; }
    public required string Json { get; set; }

    /// <summary>No two have the same; null of those kept before drafts had an id.</summary>
    public Guid? Draft { get; set; }
}

internal sealed record SetAsideLickRow
{
    public required string Who { get; set; }

    /// <summary>Its name.</summary>
    public required string Lick { get; set; }
}

internal sealed class PracticeRow : IOwned
{
    public string Owner { get; set; } = "";
    public Guid Break { get; set; }
    public DateOnly Day { get; set; }
    public int Phrase { get; set; }
    public double Tempo { get; set; }
    public int Clean { get; set; }
    public int Spoiled { get; set; }
}

internal sealed class OwnLickRow : IOwned
{
    public string Owner { get; set; } = "";
    public long Number { get; set; }
    public Guid Id { get; set; }
    public required string Name { get; set; }
    public required string Row { get; set; }
    public DateTimeOffset AddedAt { get; set; }
}

internal sealed class LessonRow : IOwned
{
    public string Owner { get; set; } = "";
    public long Number { get; set; }
    public Guid Id { get; set; }
    public Guid Break { get; set; }
    public required string Title { get; set; }
    public required string Edits { get; set; }
    public DateTimeOffset ChangedAt { get; set; }
}

internal sealed class TakeRow : IOwned
{
    public string Owner { get; set; } = "";
    public long Number { get; set; }
    public Guid Id { get; set; }
    public Guid Break { get; set; }
    public DateTimeOffset At { get; set; }
    public required string Digest { get; set; }
    public required string Ending { get; set; }
    public required string Notes { get; set; }
}

/// <summary>On a server only: beside a file they are files.</summary>
internal sealed class RecordingRow
{
    public required string Digest { get; set; }
    public required byte[] Bytes { get; set; }
}
