using System.Xml.Linq;
using Rollwright.Music.Chords;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>Reads chord symbols.</summary>
internal static class HarmonyReader
{
    // Kinds of MusicXML 4.0 that have more tones than ours: the triad and the seventh stay the same.
    private static readonly Dictionary<string, string> Nearest = new(StringComparer.Ordinal)
    {
        ["major-ninth"] = "major-seventh",
        ["minor-ninth"] = "minor-seventh",
        ["dominant-11th"] = "dominant-ninth",
        ["major-11th"] = "major-seventh",
        ["minor-11th"] = "minor-seventh",
        ["dominant-13th"] = "dominant-ninth",
        ["major-13th"] = "major-seventh",
        ["minor-13th"] = "minor-seventh",
        ["major-minor"] = "minor",
        ["augmented-seventh"] = "augmented",
    };

    /// <summary>As it sounds; null where root or kind is not known.</summary>
    public static Chord? Read(XElement harmony)
    {
        var named = (string?)harmony.Element("kind") ?? "";
        var kind = Array.IndexOf(HarmonyWriter.Kinds, Nearest.GetValueOrDefault(named, named));
        return kind >= 0 && Name(harmony.Element("root"), "root") is { } root
            ? new(root, (ChordQuality)kind, Name(harmony.Element("bass"), "bass"))
            : null;
    }

    private static PitchName? Name(XElement? element, string role)
    {
        if (PitchName.Parse((string?)element?.Element($"{role}-step")) is not { } name)
            return null;
        return int.TryParse((string?)element!.Element($"{role}-alter") ?? "0", out var alter) && alter is >= -2 and <= 2
            ? name with
            {
                Alter = alter,
            }
            : null;
    }
}
