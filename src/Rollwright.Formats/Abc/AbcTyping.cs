using System.Text.RegularExpressions;
using Rollwright.Formats.Abc.Writing;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc;

/// <summary>
/// Adds note after note to the end of a tune's text, for whoever plays or taps it in. Key, accidentals, L: and the place in the bar
/// are those of <see cref="AbcReader"/>: each addition is tried on it, so that what is added reads back as what was played.
/// </summary>
public static partial class AbcTyping
{
    private const int BarsOfLine = 4;

    /// <summary>A tune without a note yet.</summary>
    public static string Begin(string title, TimeSignature time, Key key) =>
        $"X:1\nT:{TextString.Write(title)}\nM:{time}\nL:{time.Step}\nK:{AbcWriter.Name(key)}\n";

    /// <summary>A note; where it is longer than what is left of the bar, it goes on over the bar line by a tie.</summary>
    /// <param name="text">The tune, with a key field.</param>
    /// <param name="midi">0 to 127; 60 is C4.</param>
    /// <param name="length">Whole notes, more than zero.</param>
    public static string Note(string text, int midi, Fraction length)
    {
        var (ready, place) = Ready(text);
        var pitch = Pitch.FromMidi(midi, place.Key.Spell(midi));
        var name = NoteText.Name(pitch);
        if (NoteAfter(ready + name).Pitch.Midi != midi)
            name = NoteText.Accidental(pitch.Name.Alter) + name;
        return length <= place.Room
            ? ready + name + NoteText.Times(length / place.Unit)
            : Note(ready + name + NoteText.Times(place.Room / place.Unit) + "-", midi, length - place.Room);
    }

    /// <summary>A rest; what is longer than what is left of the bar goes on in the next.</summary>
    public static string Rest(string text, Fraction length)
    {
        var (ready, place) = Ready(text);
        return length <= place.Room
            ? $"{ready}z{NoteText.Times(length / place.Unit)}"
            : Rest($"{ready}z{NoteText.Times(place.Room / place.Unit)}", length - place.Room);
    }

    /// <summary>Ends the bar, full or not; nothing where one has just begun.</summary>
    public static string BarLine(string text) => PlaceAfter(Open(text)).At > Fraction.Zero ? $"{Open(text)}|" : text;

    /// <summary>Takes back the last note, rest, or bar line of a bar that was not full; the same text where there is none.</summary>
    public static string Undo(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var left = text.TrimEnd();
        if (IsField(left))
            return text;
        if (
            left.EndsWith('|')
            && !left.EndsWith("||", StringComparison.Ordinal)
            && !left.EndsWith(":|", StringComparison.Ordinal)
        )
        {
            left = left[..^1].TrimEnd();
            // The line behind a full bar came by itself with the next note.
            if (IsField(left) || PlaceAfter(left).Room > Fraction.Zero)
                return left;
        }
        var without = LastNote().Replace(left, "", 1);
        if (without.Length == left.Length)
            return text;
        var rest = without.TrimEnd('|', ' ', '\n');
        // A tie led into it: both are one note.
        return rest.EndsWith('-') ? Undo(rest)
            : IsField(without.TrimEnd()) ? without
            : without.TrimEnd();
    }

    /// <summary>Where the next note would stand.</summary>
    /// <param name="At">Whole notes from the bar line.</param>
    /// <param name="Room">Whole notes that the bar has left; 0 or less where it is full.</param>
    /// <param name="Unit">Whole notes of a letter without a number.</param>
    /// <param name="Key">In force there.</param>
    /// <param name="Time">In force there.</param>
    private readonly record struct Place(Fraction At, Fraction Room, Fraction Unit, Key Key, TimeSignature Time);

    // The text up to where the next note goes: a full bar is closed, and what no beam joins is parted.
    private static (string Text, Place Place) Ready(string text)
    {
        var open = Open(text);
        var place = PlaceAfter(open);
        if (place.Room <= Fraction.Zero)
        {
            open += BarsOnLastLine(open) + 1 < BarsOfLine ? "|" : "|\n";
            place = PlaceAfter(open);
        }
        else if (place.At > Fraction.Zero && place.At % place.Time.BeamGroup == Fraction.Zero)
        {
            open += " ";
        }
        return (open, place);
    }

    // An empty line would end the tune, and what stands behind a field belongs to it.
    private static string Open(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var trimmed = text.TrimEnd();
        return IsField(trimmed) ? trimmed + "\n" : trimmed;
    }

    private static bool IsField(string text)
    {
        var line = text[(text.LastIndexOf('\n') + 1)..];
        return line is [_, ':', not ('|' or ':'), ..] or "" || line.Contains('%', StringComparison.Ordinal);
    }

    private static int BarsOnLastLine(string text) =>
        text[(text.LastIndexOf('\n') + 1)..].Split('|', StringSplitOptions.RemoveEmptyEntries).Length - 1;

    private static Place PlaceAfter(string text)
    {
        // A note that nobody hears says where it would stand, and how long a letter is.
        var bar = LastBar(text + "C");
        var note = bar.Notes[^1];
        return new(note.At, bar.Time.Bar - note.At, note.Length, bar.Key, bar.Time);
    }

    private static Note NoteAfter(string text) => LastBar(text).Notes[^1];

    private static TuneBar LastBar(string text) =>
        AbcReader.Read(text, "typing").Tunes is [.., var tune] && tune.Bars[^1].Notes.Length > 0
            ? tune.Bars[^1]
            : throw new ArgumentException("The text has no tune that could go on: it lacks its fields.", nameof(text));

    [GeneratedRegex(
        "(\"[^\"]*\")?[\\^_=]*[A-Ga-gzx][,']*[0-9/]*-?$",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 1000
    )]
    private static partial Regex LastNote();
}
