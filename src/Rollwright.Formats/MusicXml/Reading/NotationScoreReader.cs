using System.Collections.Immutable;
using System.Xml.Linq;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>Reads the head of a score and the part and voice whose notes are wanted.</summary>
internal sealed class NotationScoreReader(ScoreFile file, MessageLog log)
{
    public TuneReading Read(ScoreChoice choice)
    {
        var (line, column) = file.Place;
        var wanted = choice.Part;
        var chosen = file.Parts.FirstOrDefault(one => wanted is null ? one.HasPitch : one.IsCalled(wanted));
        if (chosen is not { HasPitch: true })
        {
            log.Error(
                line,
                column,
                wanted is null ? "no note of the score has a pitch"
                    : chosen is null ? $"no part is called '{wanted}'"
                    : $"part '{wanted}' has no note with a pitch",
                $"choose a part; there are {string.Join(", ", file.Parts.Select(part => part.Called))}"
            );
            return new(null, null, log.Messages);
        }
        var score = file.Load(chosen);
        var part = score.Element("part")!;
        if (file.Parts.Count > 1 && wanted is null)
            log.NoteOnce(
                line,
                column,
                $"part '{chosen.Called}' is read, the first with notes; others are {string.Join(", ", file.Parts.Where(one => one != chosen).Select(one => one.Called))}"
            );
        var tabStaves = NotationMeasureReader.TabStavesOf(part);
        if (!VoiceChoice.Find(part, tabStaves, choice.Voice, log, out var voice))
            return new(null, null, log.Messages);
        var bars = new NotationMeasureReader(tabStaves, voice, log).ReadAll(part);
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
}
