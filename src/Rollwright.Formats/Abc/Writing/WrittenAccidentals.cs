using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.Abc.Writing;

/// <summary>
/// Accidentals of one bar. Programs differ in whether one holds in other octaves: once a letter had one, every further
/// note of that letter in the bar gets its own.
/// </summary>
internal sealed class WrittenAccidentals(Key key)
{
    private readonly HashSet<Letter> doubtful = [];

    public string Of(Pitch pitch)
    {
        var letter = pitch.Name.Letter;
        if (pitch.Name.Alter == key.AlterOf(letter) && !doubtful.Contains(letter))
            return "";
        doubtful.Add(letter);
        return NoteText.Accidental(pitch.Name.Alter);
    }
}
