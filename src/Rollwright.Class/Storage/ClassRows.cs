using Rollwright.Class.People;

namespace Rollwright.Class.Storage;

// Rows of the class's tables; they never leave the room.

internal sealed class InvitationRow
{
    public Guid Id { get; set; }

    /// <summary>SHA-256 of the secret: who reads the table cannot use the link.</summary>
    public required string Digest { get; set; }
    public required string Name { get; set; }
    public Role Role { get; set; }

    /// <summary>Whose new password it is for; null where it makes a member.</summary>
    public string? Member { get; set; }
    public DateTimeOffset MadeAt { get; set; }
    public DateTimeOffset EndsAt { get; set; }
    public DateTimeOffset? UsedAt { get; set; }
}

internal sealed class PublishedRow
{
    public Guid Id { get; set; }

    /// <summary>The teacher's break.</summary>
    public Guid Source { get; set; }
    public string Title { get; set; } = "";

    /// <summary>Key, tuning and the like, in a line.</summary>
    public string About { get; set; } = "";
    public string By { get; set; } = "";
    public DateTimeOffset At { get; set; }

    /// <summary>Not shown to pupils any more; what they made of it stays.</summary>
    public DateTimeOffset? WithdrawnAt { get; set; }

    /// <summary>The tune, as the library hands it out, in JSON; then wishes and break as in a revision of the library.</summary>
    public string Tune { get; set; } = "";
    public string Wishes { get; set; } = "";
    public string Break { get; set; } = "";
}

internal sealed class DocumentRow
{
    public Guid Lesson { get; set; }
    public required string Name { get; set; }
    public required string FileName { get; set; }
    public required string Type { get; set; }
    public required byte[] Bytes { get; set; }
}

/// <summary>The break of a member's own that was made of a published lesson.</summary>
internal sealed class CopyRow
{
    public Guid Lesson { get; set; }
    public required string Member { get; set; }
    public Guid Break { get; set; }
}

internal sealed class SetPracticeRow
{
    public Guid Id { get; set; }
    public Guid Lesson { get; set; }

    /// <summary>Null: for all.</summary>
    public string? Pupil { get; set; }
    public required string Words { get; set; }

    /// <summary>A minute, in the unit of the lesson's break.</summary>
    public int? Tempo { get; set; }
    public DateOnly? Due { get; set; }
    public required string By { get; set; }
    public DateTimeOffset At { get; set; }
}

internal sealed class HandedInRow
{
    public Guid Id { get; set; }
    public Guid Lesson { get; set; }
    public required string Pupil { get; set; }

    /// <summary>The take in the pupil's library.</summary>
    public Guid Take { get; set; }
    public required string Ending { get; set; }
    public required string Words { get; set; }
    public DateTimeOffset At { get; set; }
    public required string Answer { get; set; }
    public string? AnsweredBy { get; set; }
    public DateTimeOffset? AnsweredAt { get; set; }
}
