using Rollwright.Music.Chords;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Engraving.Labels;

/// <summary>Names of notes, chords and keys as print writes them: with ♯ and ♭.</summary>
internal static class PrintedNames
{
    public static string Of(PitchName name) =>
        name.Letter + (name.Alter < 0 ? new string('♭', -name.Alter) : new string('♯', name.Alter));

    public static string Of(Chord chord) =>
        Of(chord.Root)
        + chord.Suffix.Replace("b5", "♭5", StringComparison.Ordinal)
        + (chord.Bass is { } bass ? "/" + Of(bass) : "");

    public static string Of(Key key) => $"{Of(key.Tonic)} {key.Mode.ToString().ToLowerInvariant()}";

    /// <summary>"g D G B D" with its signs: "f# D F# A D" becomes "f♯ D F♯ A D".</summary>
    public static string OfTuning(string spelling) =>
        string.Join(
            ' ',
            spelling
                .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .Select(name => name[..1] + name[1..].Replace('#', '♯').Replace('b', '♭'))
        );
}
