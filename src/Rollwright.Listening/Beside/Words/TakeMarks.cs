using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Listening.Beside.Answers;

namespace Rollwright.Listening.Beside.Words;

/// <summary>What stands at the strokes of the break that was meant: a sign for each that was not as meant.</summary>
public static class TakeMarks
{
    public const string Legend =
        "x another note   o missing   < early   > late   (the last time through; + what went wrong another time too)";

    /// <summary>By stroke of the written break; what was always right is not in it.</summary>
    public static ImmutableDictionary<StrokeName, string> Of(Comparison found)
    {
        ArgumentNullException.ThrowIfNull(found);
        return found
            .Notes.Where(note => note.Note.Name is not null)
            .GroupBy(note => note.Note.Name!.Value)
            .Select(times => (Name: times.Key, Marks: times.Select(MarkOf).Where(mark => mark.Length > 0).ToList()))
            .Where(stroke => stroke.Marks.Count > 0)
            .ToImmutableDictionary(
                stroke => stroke.Name,
                stroke => stroke.Marks[^1] + (stroke.Marks.Count > 1 ? "+" : "")
            );
    }

    private static string MarkOf(NoteAnswer note) =>
        note.Label switch
        {
            NoteLabel.Wrong => "x",
            NoteLabel.Missing => "o",
            NoteLabel.Ok when note.IsEarly => "<",
            NoteLabel.Ok when note.IsLate => ">",
            _ => "",
        };
}
