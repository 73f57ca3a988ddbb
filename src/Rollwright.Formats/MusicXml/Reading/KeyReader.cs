using System.Xml.Linq;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>Reads a key: sharps or flats, and a mode.</summary>
internal static class KeyReader
{
    /// <summary>Major where no known mode is named; C major where there is no key at all.</summary>
    public static Key Read(XElement? key)
    {
        var fifths = (int)Math.Clamp(long.TryParse((string?)key?.Element("fifths"), out var given) ? given : 0, -7, 7);
        var mode = ModeOf(key) ?? Mode.Major;
        // The tonic whose scale has this signature.
        return Enumerable
            .Range(fifths - 1, 8)
            .Select(tonic => new Key(PitchName.FromFifths(tonic), mode))
            .First(one => one.Fifths == fifths);
    }

    /// <summary>Null where none is named that is known here.</summary>
    public static Mode? ModeOf(XElement? key) =>
        Enum.TryParse<Mode>((string?)key?.Element("mode") ?? "", ignoreCase: true, out var mode) && Enum.IsDefined(mode)
            ? mode
            : null;
}
