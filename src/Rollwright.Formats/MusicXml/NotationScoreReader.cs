using System.Collections.Immutable;
using System.Xml.Linq;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.MusicXml;

/// <summary>Reads the head of a score and the part whose notes are wanted.</summary>
internal sealed class NotationScoreReader(XElement score, MessageLog log)
{
    public TuneReading Read(string? wanted)
    {
        var (line, column) = MusicXmlReader.Place(score);
        if (score.Name.LocalName != "score-partwise")
        {
            log.Error(line, column, $"<{score.Name.LocalName}> is no partwise score", "save it as MusicXML, partwise");
            return new(null, null, log.Messages);
        }
        var parts = score.Elements("part").ToList();
        var part = parts.Find(one => wanted is null ? one.Descendants("pitch").Any() : IsNamed(one, wanted));
        if (part is null || !part.Descendants("pitch").Any())
        {
            log.Error(
                line,
                column,
                wanted is null ? "no note of the score has a pitch"
                    : part is null ? $"no part is called '{wanted}'"
                    : $"part '{wanted}' has no note with a pitch",
                $"choose a part; there are {string.Join(", ", parts.Select(NameOf))}"
            );
            return new(null, null, log.Messages);
        }
        if (parts.Count > 1 && wanted is null)
            log.NoteOnce(line, column, "other parts than the first one with notes are kept aside");
        var bars = Bars(part);
        if (bars.All(bar => bar.Notes.IsEmpty))
        {
            log.Error(line, column, "no note of the part could be read", "write pitch and duration of each note");
            return new(null, null, log.Messages);
        }
        var key = part.Descendants("key").FirstOrDefault();
        return new(
            new Tune
            {
                Title = ScoreReader.TitleOf(score),
                Composer = ScoreReader.ComposerOf(score),
                Key = bars[0].Key,
                IsKeyGiven = KeyReader.ModeOf(key) is not null,
                Time = bars[0].Time,
                Tempo = ScoreReader.ReadTempo(part),
                Bars = bars,
            },
            KeyReader.ModeOf(key) is null ? null : bars[0].Key,
            log.Messages
        );
    }

    private ImmutableArray<TuneBar> Bars(XElement part)
    {
        var reader = new NotationMeasureReader(part, log);
        var bars = ImmutableArray.CreateBuilder<TuneBar>();
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
        return bars.ToImmutable();
    }

    private bool IsNamed(XElement part, string wanted) =>
        (string?)part.Attribute("id") == wanted
        || string.Equals(NameOf(part), wanted, StringComparison.OrdinalIgnoreCase);

    private string NameOf(XElement part)
    {
        var id = (string?)part.Attribute("id") ?? "";
        var named = score.Descendants("score-part").FirstOrDefault(one => (string?)one.Attribute("id") == id);
        var name = ((string?)named?.Element("part-name") ?? "").Trim();
        return name.Length > 0 ? name : id;
    }
}
