using System.Collections.Immutable;
using System.Globalization;
using System.Xml.Linq;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>Reads the head of a score and the part that has tab.</summary>
internal sealed class ScoreReader(ScoreFile file, MessageLog log)
{
    /// <summary>The break; null (and a message) where the score holds no five-string tab.</summary>
    /// <param name="wanted">Id or name of the part; null for the first with tab.</param>
    public Break? Read(string? wanted)
    {
        var (line, column) = file.Place;
        var tabs = file.Parts.Where(part => part.HasFret && (wanted is null || part.IsCalled(wanted))).ToList();
        if (tabs.Count == 0)
        {
            log.Error(
                line,
                column,
                wanted is null
                    ? "no note of the score has a string and a fret"
                    : $"no part called '{wanted}' has a string and a fret",
                "give a score with five-string tab; 'finger' finds strings for notes that have none"
            );
            return null;
        }
        foreach (var part in tabs)
        {
            var score = file.Load(part);
            var loaded = score.Element("part")!;
            if (StringsOf(loaded) is var strings && strings != Neck.Strings)
            {
                log.NoteOnce(line, column, $"part '{part.Called}' is tab of {strings} strings and kept aside");
                continue;
            }
            if (file.Parts.Count > 1 && wanted is null)
                log.NoteOnce(line, column, $"part '{part.Called}' is read; other parts are kept aside");
            return Read(score, loaded);
        }
        log.Error(
            line,
            column,
            "the tab is not that of five strings",
            "'finger' reads its notes and finds strings for them"
        );
        return null;
    }

    private Break? Read(XElement score, XElement part)
    {
        var setting = new SettingReader(score, part, log).Read();
        var bars = new MeasureReader(part, setting, log).ReadAll(part);
        if (bars.All(bar => bar.Strokes.IsEmpty))
        {
            var (line, column) = file.Place;
            log.Error(line, column, "no note of the tab could be read", "write string 1 to 5, fret and duration");
            return null;
        }
        return new BreakRemainder(score, log).AddTo(
            new()
            {
                Title = TitleOf(score),
                Composer = ComposerOf(score),
                Setting = setting,
                Time = bars[0].Time,
                Tempo = ReadTempo(part) ?? new(bars[0].Time.Beat, 80),
                Swing = ReadSwing(part, bars[0].Time.Step),
                Bars = bars,
            }
        );
    }

    // Lines of the tab staff, else tunings given; a string beyond five is told by its number.
    private static int StringsOf(XElement part)
    {
        var highest = part.Descendants("technical")
            .Elements("string")
            .Select(one => int.TryParse(one.Value, out var number) ? number : 0);
        var tuned = part.Descendants("staff-tuning").Select(one => (string?)one.Attribute("line")).Distinct().Count();
        return Math.Max(highest.DefaultIfEmpty(0).Max(), tuned == 0 ? Neck.Strings : tuned);
    }

    internal static string TitleOf(XElement score) =>
        Text(score.Element("work")?.Element("work-title") ?? score.Element("movement-title")) ?? "Untitled";

    internal static string ComposerOf(XElement score) =>
        Text(score.Descendants("creator").FirstOrDefault(one => (string?)one.Attribute("type") == "composer")) ?? "";

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
