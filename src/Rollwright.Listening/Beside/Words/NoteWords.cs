using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Listening.Beside.Answers;
using Rollwright.Music.Forms;

namespace Rollwright.Listening.Beside.Words;

/// <summary>Says of a note where it stands and what happened to it.</summary>
internal sealed class NoteWords(Break played)
{
    // Further away than this another string was plucked rather than another fret stopped (assumption).
    private const int SameString = 3;

    private readonly BarNumbering numbering = played.Numbering;

    /// <summary>Of a note that is wrong or missing.</summary>
    public string Fault(NoteAnswer note)
    {
        if (note.Note.Name is not { } name)
            return $"{note.Label}.";
        var stroke = StrokeOf(name);
        if (note.Label == NoteLabel.Missing)
            return $"{Place(name)}: {NameOf(stroke)} is missing.";
        var fret = stroke.Fret + (note.Instead ?? note.Note.Pitch) - note.Note.Pitch;
        // The short string's first stopped fret is 6, as the neck counts.
        var isFret = stroke.String == 5 ? fret is 0 or > 5 : fret >= 0;
        return isFret && Math.Abs(fret - stroke.Fret) <= SameString
            ? $"{Place(name)}: string {stroke.String} sounds {FretOf(fret)}, not {FretOf(stroke.Fret)}."
            : $"{Place(name)}: another note sounds in place of {NameOf(stroke)}.";
    }

    /// <summary>Of a note that is right but clearly early or late.</summary>
    public string OffTime(NoteAnswer note)
    {
        var late = (note.Late ?? 0) * 1000;
        var where = note.Note.Name is { } name ? Place(name) : "One note";
        return $"{where} comes {Math.Abs(late):0} ms {(late > 0 ? "late" : "early")}.";
    }

    private Stroke StrokeOf(StrokeName name) => played.Bars[name.Bar].Strokes[name.Index];

    private string Place(StrokeName name)
    {
        var place = numbering.Place(name.Bar, StrokeOf(name).At);
        return char.ToUpperInvariant(place[0]) + place[1..];
    }

    private static string NameOf(Stroke stroke) =>
        stroke.Slur is { } kind ? $"the {SlurNames.Word(kind)} to fret {stroke.Fret} of string {stroke.String}"
        : stroke.Fret == 0 ? $"open string {stroke.String}"
        : $"string {stroke.String} at fret {stroke.Fret}";

    private static string FretOf(int fret) => fret == 0 ? "open" : $"at fret {fret}";
}
