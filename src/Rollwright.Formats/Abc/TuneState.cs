using Rollwright.Formats.Messages;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc;

/// <summary>What the fields of a tune say so far (ABC 2.1, section 3), and what they change in the music.</summary>
internal sealed class TuneState(MessageLog log, BarWriter bars)
{
    private string? firstVoice;
    private Fraction? unitLength;
    private (string Value, int Line, int Column)? tempo;
    private bool hasHead;

    public List<string> Titles { get; } = [];

    public string Composer { get; private set; } = "";

    public string Rhythm { get; private set; } = "";

    public int Number { get; private set; } = 1;

    public string PartOrder { get; private set; } = "";

    public int PartOrderLine { get; private set; }

    public Tempo? Tempo { get; private set; }

    public TimeSignature? HeadTime { get; private set; }

    public KeyField KeyField { get; private set; } = KeyField.None;

    public bool HasKey { get; private set; }

    /// <summary>A K: field named the key; otherwise it is to be found from the notes.</summary>
    public bool IsKeyGiven { get; private set; }

    public Accidentals Accidentals { get; } = new();

    public bool IsOtherVoice { get; private set; }

    /// <summary>Within (& … &amp;), which may lie over several bars.</summary>
    public bool IsGroup { get; set; }

    public Fraction UnitLength => unitLength ?? MetreField.DefaultUnit(HeadTime ?? TimeSignature.Common);

    public void Field(char field, string value, int line, int column)
    {
        switch (field)
        {
            case 'X':
                Number = int.TryParse(value, out var number) && number >= 0 ? number : 1;
                break;
            case 'T' when !hasHead && value.Length > 0:
                Titles.Add(TextString.Title(value));
                break;
            case 'C' when !hasHead && Composer.Length == 0:
                Composer = TextString.Read(value);
                break;
            case 'R' when !hasHead:
                Rhythm = TextString.Read(value);
                break;
            case 'K':
                ReadKey(value, line, column);
                break;
            case 'M':
                ReadMetre(value, line, column);
                break;
            case 'L':
                ReadUnitLength(value, line, column);
                break;
            case 'Q':
                ReadTempo(value, line, column);
                break;
            case 'P':
                ReadPart(value, line, column);
                break;
            case 'V':
                ReadVoice(value, line, column);
                break;
            case 'U' or 'm':
                log.NoteOnce(line, column, "signs and macros of the file's own (U:, m:) are kept aside");
                break;
            default:
                break;
        }
    }

    /// <summary>The head is over: its metre and key go into the first bar.</summary>
    public void EndHead()
    {
        if (hasHead)
            return;
        hasHead = true;
        bars.Time = HeadTime ?? TimeSignature.Common;
        if (tempo is not { } asked)
            return;
        Tempo = TempoField.Read(asked.Value, UnitLength);
        if (Tempo is null && asked.Value.Any(char.IsAsciiDigit))
            log.Warning(asked.Line, asked.Column, $"no tempo can be read here", "write it as Q:1/4=120");
    }

    public Pitch Sounding(Pitch written)
    {
        var pitch = written with { Octave = written.Octave + KeyField.Octaves };
        return KeyField.Semitones == 0
            ? pitch
            : Pitch.FromMidi(pitch.Midi + KeyField.Semitones, SoundingKey.Spell(pitch.Midi + KeyField.Semitones));
    }

    public Chord Transposed(Chord chord) =>
        KeyField.Semitones == 0 ? chord : chord.TransposeFifths(SoundingKey.Tonic.Fifths - KeyField.Key.Tonic.Fifths);

    /// <summary>Whether a sounding pitch is written with this letter and octave.</summary>
    public bool IsWritten(Pitch sounding, NoteSign note) =>
        KeyField.Semitones == 0
        && sounding.Name.Letter == note.Letter
        && sounding.Octave == note.Octave + KeyField.Octaves;

    private Music.Keys.Key SoundingKey =>
        KeyField.Semitones == 0 ? KeyField.Key : KeyField.Key.Transpose(KeyField.Semitones);

    private void ReadKey(string value, int line, int column)
    {
        if (IsOtherVoice)
            return;
        var read = KeyField.Read(value, out var wrong);
        if (wrong is not null)
            log.Error(line, column, wrong, "write a tonic and a mode, such as K:G, K:Ador or K:D mix; major is taken");
        KeyField = read;
        HasKey = true;
        // The first key that is named is the tune's; K:none, an empty K: or one with only a clef leave it to the notes.
        IsKeyGiven |= wrong is null && value.Trim() is ['A' or 'B' or 'C' or 'D' or 'E' or 'F' or 'G' or 'H', ..];
        bars.Key = SoundingKey;
        Accidentals.Clear();
        EndHead();
    }

    private void ReadMetre(string value, int line, int column)
    {
        if (IsOtherVoice)
            return;
        if (MetreField.Read(value) is not { } time)
        {
            log.Error(
                line,
                column,
                $"'{Shorten(value)}' is not a metre",
                "write M:4/4, M:C|, M:6/8 or another with a power of two below"
            );
            return;
        }
        HeadTime ??= time;
        if (!hasHead || bars.BarCount == 0)
            HeadTime = time;
        bars.Time = time;
    }

    private void ReadUnitLength(string value, int line, int column)
    {
        if (IsOtherVoice)
            return;
        if (MetreField.Unit(value) is { } unit)
            unitLength = unit;
        else
            log.Error(line, column, $"'{Shorten(value)}' is not a note length", "write L:1/8 or L:1/16");
    }

    private void ReadTempo(string value, int line, int column)
    {
        if (!hasHead)
            tempo = (value, line, column);
        else if (Tempo is null && bars.BarCount == 0)
            Tempo = TempoField.Read(value, UnitLength);
        else
            log.NoteOnce(line, column, "a change of tempo within a tune is kept aside");
    }

    private void ReadPart(string value, int line, int column)
    {
        if (!hasHead)
            (PartOrder, PartOrderLine) = (value, line);
        else if (value.Length > 0)
            bars.StartPart(Shorten(TextString.Read(value)), line, column);
    }

    private void ReadVoice(string value, int line, int column)
    {
        var end = value.AsSpan().IndexOfAny(' ', '\t');
        var name = end < 0 ? value : value[..end];
        if (!hasHead)
            return;
        // Music before the first V: of the body belongs to the first voice too.
        if (firstVoice is null)
            firstVoice = bars.HasNotes && name is not ("1" or "T1") ? "" : name;
        var isOther = name != firstVoice && !(firstVoice.Length == 0 && name == "1");
        if (isOther && !IsOtherVoice)
            log.NoteOnce(line, column, "the first voice is the tune; the others are kept aside");
        IsOtherVoice = isOther;
    }

    private static string Shorten(string text) => text.Length <= 24 ? text : text[..24] + "…";
}
