using System.Xml.Linq;
using Rollwright.Formats.Messages;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>
/// Which voice of a part is the melody: of those with at least half as many notes as the fullest, the one that lies highest
/// (common practice, no source).
/// </summary>
internal static class VoiceChoice
{
    /// <param name="part">The part.</param>
    /// <param name="tabStaves">Staves whose notes are not read.</param>
    /// <param name="wanted">A voice, all of them, or null to choose.</param>
    /// <param name="log">Is told what is chosen.</param>
    /// <param name="voice">The voice; null for all.</param>
    /// <returns>False, and a message, where the part has no such voice.</returns>
    public static bool Find(XElement part, HashSet<string> tabStaves, string? wanted, MessageLog log, out string? voice)
    {
        voice = null;
        var voices = part.Descendants("note")
            .Where(note =>
                note.Element("pitch") is not null && !tabStaves.Contains(NotationMeasureReader.StaffOf(note))
            )
            .GroupBy(VoiceOf)
            .ToDictionary(group => group.Key, group => (Count: group.Count(), Height: group.Average(Height)));
        var (line, column) = MusicXmlReader.Place(part);
        if (wanted is not null && wanted != ScoreChoice.AllVoices && !voices.ContainsKey(wanted))
        {
            log.Error(
                line,
                column,
                $"the part has no voice '{wanted}' with notes",
                $"choose a voice; there are {string.Join(", ", voices.Keys.Order(StringComparer.Ordinal))}"
            );
            return false;
        }
        if (wanted == ScoreChoice.AllVoices || voices.Count < 2)
            return true;
        voice = wanted;
        if (voice is not null)
            return true;
        var full = voices.Values.Max(one => one.Count);
        voice = voices.Where(one => one.Value.Count * 2 >= full).MaxBy(one => one.Value.Height).Key;
        log.NoteOnce(
            line,
            column,
            $"voice {voice} is read as the melody; the part also has {string.Join(", ", voices.Keys.Except([voice]).Order(StringComparer.Ordinal))}"
        );
        return true;
    }

    public static string VoiceOf(XElement note) => ((string?)note.Element("voice"))?.Trim() ?? "1";

    // Seven steps an octave; enough to tell which voice lies higher.
    private static double Height(XElement note)
    {
        var pitch = note.Element("pitch")!;
        var octave = int.TryParse((string?)pitch.Element("octave"), out var given) ? Math.Clamp(given, 0, 9) : 4;
        var step = "CDEFGAB".IndexOf((string?)pitch.Element("step") ?? "C", StringComparison.Ordinal);
        return (7 * octave) + step;
    }
}
