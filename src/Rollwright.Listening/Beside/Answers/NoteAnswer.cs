using Rollwright.Listening.Beside.Meanings;

namespace Rollwright.Listening.Beside.Answers;

/// <summary>What became of a note that was meant; where it was played more than once, the last time.</summary>
/// <param name="Note">The note.</param>
/// <param name="Label">Whether it sounded.</param>
public sealed record NoteAnswer(MeantNote Note, NoteLabel Label)
{
    /// <summary>Seconds from the beginning of the recording; null where nothing sounded.</summary>
    public double? Onset { get; init; }

    /// <summary>Seconds after its time by the tempo around it, early below 0; null where it did not sound.</summary>
    public double? Late { get; init; }

    /// <summary>Clearly before its time.</summary>
    public bool IsEarly => Late < -TakeTable.Of("clearly");

    /// <summary>Clearly after its time.</summary>
    public bool IsLate => Late > TakeTable.Of("clearly");

    /// <summary>MIDI key that sounded in its place; null unless wrong.</summary>
    public int? Instead { get; init; }
}
