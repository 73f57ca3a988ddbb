using System.Xml.Linq;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.MusicXml;

/// <summary>The tempo with its unit, and how pairs of steps are played.</summary>
internal static class TempoWriter
{
    public static XElement Write(Tempo tempo, Swing? swing, Fraction step)
    {
        var number = tempo.PerMinute.ToString("0.###");
        var quarters = (240 / tempo.SecondsPerWhole).ToString("0.###");
        return new(
            "direction",
            new XAttribute("placement", "above"),
            new XElement("direction-type", Sign(tempo, number)),
            new XElement("staff", 1),
            new XElement("sound", new XAttribute("tempo", quarters), Played(swing, step))
        );
    }

    private static XElement? Played(Swing? swing, Fraction step) =>
        swing is null
            ? null
            : new(
                "swing",
                new XElement("first", swing.First),
                new XElement("second", swing.Second),
                new XElement("swing-type", step == new Fraction(1, 16) ? "16th" : "eighth")
            );

    private static XElement Sign(Tempo tempo, string number) =>
        NoteValue.Of(tempo.Unit) is { IsTuplet: false } unit
            ? new(
                "metronome",
                new XElement("beat-unit", unit.Type),
                Enumerable.Range(0, unit.Dots).Select(_ => new XElement("beat-unit-dot")),
                new XElement("per-minute", number)
            )
            : new("words", $"{tempo.Unit} = {number}");
}
