using Rollwright.Formats.Messages;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc;

/// <summary>Reads the lines of one tune.</summary>
internal sealed class TuneReader
{
    private readonly MessageLog log;
    private readonly BarWriter bars;
    private readonly TuneState state;
    private readonly MusicLine music;
    private bool inText;
    private bool keyComes;

    public TuneReader(MessageLog log)
    {
        this.log = log;
        bars = new(log);
        state = new(log, bars);
        music = new(log, bars, state);
    }

    /// <summary>The tune; null where it has no note.</summary>
    public Tune? Read(IReadOnlyList<AbcLine> lines)
    {
        keyComes = lines.Any(line => line.Field == 'K');
        foreach (var line in lines)
            ReadLine(line);
        var last = lines.Count > 0 ? lines[^1].Number : 1;
        state.EndHead();
        var written = bars.Finish(last);
        if (!bars.HasNotes)
        {
            log.Error(
                lines.Count > 0 ? lines[0].Number : 1,
                1,
                "a tune without a single note",
                "write its music behind the K: line"
            );
            return null;
        }
        var title = state.Titles.Find(name => name.Length > 0);
        return new()
        {
            Title = title ?? "Untitled",
            OtherTitles = [.. state.Titles.Where(name => name.Length > 0).Skip(1)],
            Composer = state.Composer,
            Rhythm = state.Rhythm,
            Number = state.Number,
            IsKeyGiven = state.IsKeyGiven,
            Key = written[0].Key,
            Time = written[0].Time,
            Tempo = state.Tempo,
            Bars = PartOrder.Apply(written, state.PartOrder, state.PartOrderLine, log),
        };
    }

    private void ReadLine(AbcLine line)
    {
        if (line.IsDirective)
            ReadDirective(line);
        else if (!inText && !line.IsComment && !line.IsBlank)
            ReadContent(line.WithoutComment());
    }

    private void ReadContent(AbcLine line)
    {
        switch (line.Field)
        {
            case '\0':
                ReadMusic(line);
                break;
            // Words under the notes, symbols under the notes, and lines that go on: nothing that is played.
            case 'w' or 'W' or 's' or '+' or 'r':
                break;
            case 'I' when line.Value.StartsWith("propagate-accidentals", StringComparison.Ordinal):
                ReadScope(line.Value);
                break;
            default:
                state.Field(line.Field, line.Value, line.Number, 1);
                break;
        }
    }

    private void ReadMusic(AbcLine line)
    {
        if (!state.HasKey && keyComes)
        {
            log.Warning(line.Number, 1, "a line of the head that is no field is left out", "start it with % or N:");
            return;
        }
        if (!state.HasKey)
        {
            log.Warning(
                line.Number,
                1,
                "music begins, but no K: line names the key",
                "put K: and the key before it; no sharp and no flat is taken"
            );
            state.Field('K', "none", line.Number, 1);
        }
        music.Read(line);
    }

    private void ReadDirective(AbcLine line)
    {
        var text = line.Text[2..].Trim();
        if (
            text.StartsWith("begintext", StringComparison.Ordinal)
            || text.StartsWith("beginps", StringComparison.Ordinal)
        )
            inText = true;
        else if (
            text.StartsWith("endtext", StringComparison.Ordinal) || text.StartsWith("endps", StringComparison.Ordinal)
        )
            inText = false;
        else if (text.StartsWith("propagate-accidentals", StringComparison.Ordinal))
            ReadScope(text);
        else if (text.Length > 0)
            log.NoteOnce(line.Number, 1, "directives (%%) about layout and sound are kept aside");
    }

    private void ReadScope(string text) =>
        state.Accidentals.Reach =
            text.EndsWith("not", StringComparison.Ordinal) ? Accidentals.Scope.Not
            : text.EndsWith("octave", StringComparison.Ordinal) ? Accidentals.Scope.Octave
            : Accidentals.Scope.Pitch;
}
