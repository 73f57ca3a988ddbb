using System.Xml.Linq;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.MusicXml;

/// <summary>Chord symbols.</summary>
internal static class HarmonyWriter
{
    /// <summary>The kinds of MusicXML 4.0, in the order of <see cref="ChordQuality"/>.</summary>
    public static readonly string[] Kinds =
    [
        "major",
        "minor",
        "dominant",
        "minor-seventh",
        "major-seventh",
        "diminished",
        "diminished-seventh",
        "half-diminished",
        "augmented",
        "major-sixth",
        "minor-sixth",
        "dominant-ninth",
        "suspended-fourth",
        "suspended-second",
        "power",
    ];

    /// <param name="chord">As it sounds.</param>
    /// <param name="offset">Divisions from where the element stands to where the chord begins.</param>
    public static XElement Write(Chord chord, long offset) =>
        new(
            "harmony",
            Name("root", chord.Root),
            new XElement("kind", new XAttribute("text", chord.Suffix), Kinds[(int)chord.Quality]),
            chord.Bass is { } bass ? Name("bass", bass) : null,
            offset == 0 ? null : new XElement("offset", offset),
            new XElement("staff", 1)
        );

    private static XElement Name(string role, PitchName name) =>
        new(
            role,
            new XElement($"{role}-step", name.Letter),
            name.Alter == 0 ? null : new XElement($"{role}-alter", name.Alter)
        );
}
