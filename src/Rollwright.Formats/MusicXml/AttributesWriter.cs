using System.Xml.Linq;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.MusicXml;

/// <summary>Key, metre, clefs, and how the strings are tuned.</summary>
internal static class AttributesWriter
{
    public static XElement First(Break written, int divisions)
    {
        var key = written.Setting.SoundingKey;
        return new(
            "attributes",
            new XElement("divisions", divisions),
            new XElement(
                "key",
                new XElement("fifths", key.Fifths),
                new XElement("mode", key.Mode.ToString().ToLowerInvariant())
            ),
            Time(written.Bars[0].Time),
            new XElement("staves", 2),
            // The banjo is written an octave above its sound; the pitch elements sound as they say.
            new XElement(
                "clef",
                new XAttribute("number", 1),
                new XElement("sign", "G"),
                new XElement("line", 2),
                new XElement("clef-octave-change", -1)
            ),
            new XElement("clef", new XAttribute("number", 2), new XElement("sign", "TAB"), new XElement("line", 3)),
            new XElement(
                "staff-details",
                new XAttribute("number", 2),
                new XElement("staff-lines", Neck.Strings),
                Enumerable.Range(1, Neck.Strings).Select(line => Line(written.Setting.Tuning, line)),
                written.Setting.Capo > 0 ? new XElement("capo", written.Setting.Capo) : null
            )
        );
    }

    public static XElement Time(TimeSignature time) =>
        new(
            "time",
            time == TimeSignature.Cut ? new XAttribute("symbol", "cut") : null,
            new XElement("beats", time.Beats),
            new XElement("beat-type", time.Unit)
        );

    // Line 1 is the lowest, the short string; the tuning is that of the strings without the capo.
    private static XElement Line(Tuning tuning, int line)
    {
        var midi = tuning.OpenOf(Neck.Strings + 1 - line);
        var names = tuning.Spelling.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var spelled = line <= names.Length ? PitchName.Parse(names[line - 1]) : null;
        var name =
            spelled is { } given && (given.PitchClass - midi) % 12 == 0 ? given : new Key(new(Letter.C)).Spell(midi);
        var pitch = Pitch.FromMidi(midi, name);
        return new(
            "staff-tuning",
            new XAttribute("line", line),
            new XElement("tuning-step", pitch.Name.Letter),
            pitch.Name.Alter == 0 ? null : new XElement("tuning-alter", pitch.Name.Alter),
            new XElement("tuning-octave", pitch.Octave)
        );
    }
}
