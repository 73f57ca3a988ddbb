using System.Xml.Linq;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Json;
using Rollwright.Formats.Messages;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>Reads tuning, capo and key.</summary>
internal sealed class SettingReader(XElement score, XElement part, MessageLog log)
{
    /// <summary>Semitones from a tune's pitch to the banjo's, where the file does not say: an octave down (common practice).</summary>
    private const int UsualShift = -12;

    public Setting Read()
    {
        var capo = (int)Math.Clamp((long?)Whole(part.Descendants("capo").FirstOrDefault()) ?? 0, 0, Neck.LastFret);
        var sounding = KeyReader.Read(part.Descendants("key").FirstOrDefault());
        var position = Field("setting-position") is { } text ? JsonNames.Key(text) : null;
        // The key that is written is the truth; what was noted of the position only tells how it is spelled.
        if (position is not { } noted || noted.Transpose(capo) != sounding)
            position = sounding.Transpose(-capo);
        var shift =
            int.TryParse(Field("setting-shift"), out var semitones) && Math.Abs(semitones) <= 72
                ? semitones
                : UsualShift;
        return new(ReadTuning(), capo, position.Value, shift);
    }

    private string? Field(string name) =>
        score.Descendants("miscellaneous-field").FirstOrDefault(one => (string?)one.Attribute("name") == name)?.Value;

    private Tuning ReadTuning()
    {
        var open = new int[Neck.Strings];
        var found = 0;
        foreach (var line in part.Descendants("staff-tuning"))
        {
            var number = Whole(line.Attribute("line")?.Value);
            var name = PitchName.Parse((string?)line.Element("tuning-step"));
            if (
                number is not (>= 1 and <= Neck.Strings)
                || name is not { } step
                || Whole(line.Element("tuning-octave")) is not { } octave
            )
                continue;
            var alter = (int)Math.Clamp(Whole(line.Element("tuning-alter")) ?? 0, -2, 2);
            open[Neck.Strings - (int)number.Value] = new Pitch(
                step with
                {
                    Alter = alter,
                },
                (int)Math.Clamp(octave, 0, 9)
            ).Midi;
            found++;
        }
        var id = Field("setting-tuning") ?? "";
        var known = TuningTable
            .All.OrderByDescending(tuning => tuning.Id == id)
            .FirstOrDefault(tuning => tuning.Open.AsSpan().SequenceEqual(open));
        if (known is not null)
            return known;
        if (found == Neck.Strings)
            return new(
                "own",
                "own tuning",
                [.. open],
                string.Join(' ', open.Reverse().Select(key => new Key(new(Letter.C)).Spell(key)))
            );
        var (at, column) = MusicXmlReader.Place(part);
        log.Warning(
            at,
            column,
            "the tab does not say how five strings are tuned; open G is taken",
            "write staff-tuning for lines 1 to 5"
        );
        return TuningTable.OpenG;
    }

    private static long? Whole(XElement? element) => Whole(element?.Value);

    private static long? Whole(string? text) => long.TryParse(text, out var value) ? value : null;
}
