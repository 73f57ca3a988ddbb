using System.Xml.Linq;
using Rollwright.Music.Chords;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.MusicXml;

/// <summary>Reads chord symbols.</summary>
internal static class HarmonyReader
{
    /// <summary>As it sounds; null where root or kind is not known.</summary>
    public static Chord? Read(XElement harmony)
    {
        var kind = Array.IndexOf(HarmonyWriter.Kinds, (string?)harmony.Element("kind"));
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
