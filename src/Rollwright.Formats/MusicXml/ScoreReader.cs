using System.Collections.Immutable;
using System.Globalization;
using System.Xml.Linq;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.MusicXml;

/// <summary>Reads the head of a score and the part that has tab.</summary>
internal sealed class ScoreReader(XElement score, MessageLog log)
{
    /// <summary>The break; null (and a message) where the score holds no tab.</summary>
    public Break? Read()
    {
        var (line, column) = MusicXmlReader.Place(score);
        if (score.Name.LocalName != "score-partwise")
        {
            log.Error(line, column, $"<{score.Name.LocalName}> is no partwise score", "save it as MusicXML, partwise");
            return null;
        }
        var parts = score.Elements("part").ToList();
        var part = parts.Find(one => one.Descendants("fret").Any());
        if (part is null)
        {
            log.Error(
                line,
                column,
                "no note of the score has a string and a fret",
                "give a score with five-string tab"
            );
            return null;
        }
        if (parts.Count > 1)
            log.NoteOnce(line, column, "other parts than the first one with tab are kept aside");
        var setting = new SettingReader(score, part, log).Read();
        var bars = Bars(part, setting.Position.Tonic.Fifths - setting.SoundingKey.Tonic.Fifths);
        if (bars is null)
            return null;
        return new()
        {
            Title = TitleOf(score),
            Composer = ComposerOf(score),
            Setting = setting,
            Time = bars[0].Time,
            Tempo = ReadTempo(part) ?? new(bars[0].Time.Beat, 80),
            Swing = ReadSwing(part, bars[0].Time.Step),
            Bars = [.. bars],
        };
    }

    internal static string TitleOf(XElement score) =>
        Text(score.Element("work")?.Element("work-title") ?? score.Element("movement-title")) ?? "Untitled";

    internal static string ComposerOf(XElement score) =>
        Text(score.Descendants("creator").FirstOrDefault(one => (string?)one.Attribute("type") == "composer")) ?? "";

    private List<BreakBar>? Bars(XElement part, int fifthsToPosition)
    {
        var reader = new MeasureReader(part, fifthsToPosition, log);
        var bars = new List<BreakBar>();
        foreach (var measure in part.Elements("measure"))
        {
            if (bars.Count == AbcLimits.MostBars)
            {
                var (line, column) = MusicXmlReader.Place(measure);
                log.Error(
                    line,
                    column,
                    $"more than {AbcLimits.MostBars} measures; the rest is left out",
                    "part the score"
                );
                break;
            }
            bars.Add(reader.Read(measure));
        }
        return bars;
    }

    internal static Tempo? ReadTempo(XElement part)
    {
        var metronome = part.Descendants("metronome").FirstOrDefault();
        var unit = metronome is null ? null : NoteValue.LengthOf((string?)metronome.Element("beat-unit") ?? "");
        if (unit is { } length && Number(metronome!.Element("per-minute")?.Value) is { } perMinute)
        {
            var dots = metronome.Elements("beat-unit-dot").Count();
            return new(dots == 0 ? length : length * new Fraction(3, 2), perMinute);
        }
        var sound = part.Descendants("sound")
            .Select(one => Number((string?)one.Attribute("tempo")))
            .FirstOrDefault(t => t is not null);
        return sound is { } quarters ? new(new(1, 4), quarters) : null;
    }

    // A swing of other notes than the steps is not ours to play.
    private Swing? ReadSwing(XElement part, Fraction step)
    {
        var swing = part.Descendants("swing").FirstOrDefault();
        if (swing is null || swing.Element("straight") is not null)
            return null;
        if (Swing.Parse($"{(string?)swing.Element("first")}:{(string?)swing.Element("second")}") is not { } ratio)
            return null;
        var swung = (string?)swing.Element("swing-type") == "16th" ? new Fraction(1, 16) : new Fraction(1, 8);
        if (swung == step)
            return ratio;
        var (line, column) = MusicXmlReader.Place(swing);
        log.NoteOnce(line, column, "a swing of other notes than the steps of the metre is kept aside");
        return null;
    }

    private static double? Number(string? text) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, null, out var value) && value is >= 1 and <= 2000
            ? value
            : null;

    private static string? Text(XElement? element) => element?.Value.Trim() is { Length: > 0 } text ? text : null;
}
