using Rollwright.Formats.Messages;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.Abc;

/// <summary>Reads a line of music (ABC 2.1, section 4) into bars.</summary>
internal sealed class MusicLine(MessageLog log, BarWriter bars, TuneState state)
{
    private readonly Accidentals accidentals = state.Accidentals;
    private Fraction tupletScale = new(1);
    private int tupletLeft;
    private bool inGroupOverlay;

    public void Read(AbcLine line)
    {
        var cursor = new Cursor(line);
        while (!cursor.IsAtEnd && !bars.IsFull)
            ReadNext(ref cursor);
    }

    private void ReadNext(ref Cursor cursor)
    {
        if (state.IsOtherVoice)
            SkipToField(ref cursor);
        else if (cursor.Sign == '[' && char.IsAsciiLetter(cursor.Peek(1)) && cursor.Peek(2) == ':')
            ReadInlineField(ref cursor);
        else if (BarLine.StartsAt(cursor))
            ReadBarLine(ref cursor);
        else if (cursor.Sign == '[' && char.IsAsciiDigit(cursor.Peek(1)))
            ReadEnding(ref cursor);
        else if (NoteSign.StartsAt(cursor))
            ReadNote(ref cursor);
        else
            ReadSign(ref cursor);
    }

    private void ReadSign(ref Cursor cursor)
    {
        var (line, column) = (cursor.Line, cursor.Column);
        var sign = cursor.Take();
        switch (sign)
        {
            case ' ' or '\t' or '`' or '$' or ')' or '\\' or '*':
                break;
            case 'z' or 'x':
                Write(null, NoteSign.ReadTimes(ref cursor), false, line, column);
                break;
            case 'Z' or 'X':
                bars.RestBars(cursor.Number(1000) ?? 1, line, column);
                break;
            case 'y':
                cursor.Number(1000);
                break;
            case '>' or '<':
                ReadBrokenRhythm(ref cursor, sign, column);
                break;
            case '-':
                bars.Tie();
                break;
            case '(':
                ReadBracket(ref cursor, column);
                break;
            case '[':
                ReadChord(ref cursor, ']', column);
                break;
            case '"':
                ReadQuoted(ref cursor, column);
                break;
            case '{':
                ReadGrace(ref cursor, column);
                break;
            case '!':
                // One that is never closed is the line break of older files.
                cursor.TakeUntil('!');
                break;
            case '+':
                ReadPlus(ref cursor, column);
                break;
            case '&':
                ReadOverlay(ref cursor, column);
                break;
            case '.' or '~' or (>= 'H' and <= 'W') or (>= 'h' and <= 'w'):
                break;
            default:
                ReadUnknown(sign, ref cursor, column);
                break;
        }
    }

    private void ReadUnknown(char sign, ref Cursor cursor, int column)
    {
        if (char.IsAsciiDigit(sign))
        {
            cursor.Number(9);
            log.Error(cursor.Line, column, "a number stands behind no note", "put it behind a note, or leave it out");
        }
        else
            log.Error(
                cursor.Line,
                column,
                $"'{(char.IsControl(sign) ? '?' : sign)}' means nothing in music",
                "leave it out"
            );
    }

    // The second voice and all after it are not read; only a change back to the first is looked for.
    private void SkipToField(ref Cursor cursor)
    {
        if (cursor.Sign == '[' && cursor.Peek(1) is 'V' or 'P' && cursor.Peek(2) == ':')
            ReadInlineField(ref cursor);
        else
            cursor.Take();
    }

    private void ReadInlineField(ref Cursor cursor)
    {
        var column = cursor.Column;
        cursor.Take();
        var field = cursor.Take();
        cursor.Take();
        if (cursor.TakeUntil(']') is { } value)
            state.Field(field, value.Trim(), cursor.Line, column);
        else
        {
            state.Field(field, cursor.TakeRest().Trim(), cursor.Line, column);
            log.Error(cursor.Line, column, $"the field [{field}: is not closed", "put ] behind it");
        }
    }

    private void ReadBarLine(ref Cursor cursor)
    {
        var (line, column) = (cursor.Line, cursor.Column);
        if (BarLine.Read(ref cursor) is not { } barLine)
        {
            if (column > 1)
            {
                log.Error(line, column, "a colon alone is no bar line", "write |: or :|");
                return;
            }
            log.Warning(line, column, "a colon alone at the start of a line is read as |:", "write |:");
            barLine = new(0, true, false);
        }
        if (inGroupOverlay)
            return;
        bars.Close(barLine, line, column);
        accidentals.Clear();
        var ahead = cursor;
        ahead.SkipBlanks();
        if (!char.IsAsciiDigit(ahead.Sign))
            return;
        cursor = ahead;
        ReadEnding(ref cursor);
    }

    private void ReadEnding(ref Cursor cursor)
    {
        var (line, column) = (cursor.Line, cursor.Column);
        bars.StartEnding(BarLine.ReadEnding(ref cursor), line, column);
    }

    private void ReadNote(ref Cursor cursor)
    {
        var (line, column) = (cursor.Line, cursor.Column);
        if (NoteSign.Read(ref cursor, out var isMicrotone) is not { } note)
        {
            log.Error(line, column, "an accidental stands before no note", "put a note behind it");
            return;
        }
        if (isMicrotone)
            log.Warning(
                line,
                column,
                "a quarter tone is read as the nearest sharp or flat",
                "a banjo has no fret for it"
            );
        Write(PitchOf(note, line, column), note.Times, note.IsTied, line, column);
    }

    private void ReadBrokenRhythm(ref Cursor cursor, char sign, int column)
    {
        var times = 1;
        while (cursor.Take(sign))
            times++;
        bars.Break(times, sign == '>', cursor.Line, column);
    }

    private void ReadBracket(ref Cursor cursor, int column)
    {
        if (cursor.Sign == '&')
        {
            cursor.Take();
            state.IsGroup = true;
            return;
        }
        if (!char.IsAsciiDigit(cursor.Sign))
            return;
        if (Tuplet.Read(ref cursor, bars.Time) is { } tuplet)
        {
            if (bars.IsMuted)
                return;
            tupletScale = tuplet.Scale;
            tupletLeft = tuplet.Notes;
        }
        else
            log.Error(
                cursor.Line,
                column,
                "a tuplet of fewer than 2 or more than 9",
                "write (p:q:r with p and q from 2 to 9"
            );
    }

    // Notes sounded together: the top one is the melody; the first one says how long (ABC 2.1, section 4.17).
    private void ReadChord(ref Cursor cursor, char close, int column)
    {
        var line = cursor.Line;
        Pitch? top = null;
        Fraction? times = null;
        var isTied = false;
        var isTopTied = false;
        while (!cursor.IsAtEnd && cursor.Sign != close && cursor.Sign != '|')
        {
            var at = cursor.Column;
            if (!NoteSign.StartsAt(cursor))
            {
                ReadInChord(ref cursor, ref times);
                continue;
            }
            if (NoteSign.Read(ref cursor, out _) is not { } note || PitchOf(note, line, at) is not { } pitch)
                continue;
            times ??= note.Times;
            isTied |= note.IsTied;
            if (top is null || pitch.Midi > top.Value.Midi)
                (top, isTopTied) = (pitch, note.IsTied);
        }
        if (!cursor.Take(close))
            log.Error(line, column, $"a chord is not closed before the bar line", $"put {close} behind it");
        var all = NoteSign.ReadTimes(ref cursor);
        isTied = isTopTied || (cursor.Take('-') || (isTied && top is null));
        if (times is { } each)
            Write(top, each * all, isTied, line, column);
    }

    private static void ReadInChord(ref Cursor cursor, ref Fraction? times)
    {
        var sign = cursor.Take();
        if (sign is 'z' or 'x')
            times ??= NoteSign.ReadTimes(ref cursor);
        else if (sign is '!' or '"')
            cursor.TakeUntil(sign);
    }

    // Older files write chords as +GB+; others write decorations so.
    private void ReadPlus(ref Cursor cursor, int column)
    {
        var ahead = cursor;
        var inside = ahead.TakeUntil('+');
        var notes = inside?.Count(sign => sign is (>= 'A' and <= 'G') or (>= 'a' and <= 'g')) ?? 0;
        var isChord =
            notes > 1
            && inside is not ("ff" or "fff" or "ffff")
            && inside!.All(sign =>
                " ^_=,'/".Contains(sign, StringComparison.Ordinal)
                || char.IsAsciiDigit(sign)
                || sign is (>= 'A' and <= 'G') or (>= 'a' and <= 'g')
            );
        if (isChord)
            ReadChord(ref cursor, '+', column);
        else if (inside is not null)
            cursor = ahead;
        else
            log.Error(cursor.Line, column, "'+' opens nothing", "leave it out");
    }

    private void ReadQuoted(ref Cursor cursor, int column)
    {
        var line = cursor.Line;
        if (cursor.TakeUntil('"') is not { } text)
        {
            log.Error(line, column, "quotation marks are not closed", "put \" behind the chord symbol");
            return;
        }
        if (ChordSymbol.IsAnnotation(text))
            return;
        if (ChordSymbol.Read(text) is { } chord)
            bars.SetChord(state.Transposed(chord));
        else
            log.NoteOnce(
                line,
                column,
                $"\"{(text.Length > 24 ? text[..24] + "…" : text)}\" is no chord symbol; it is kept aside"
            );
    }

    private void ReadGrace(ref Cursor cursor, int column)
    {
        if (cursor.TakeUntil('}') is null)
            log.Error(cursor.Line, column, "grace notes are not closed", "put } behind them");
    }

    private void ReadOverlay(ref Cursor cursor, int column)
    {
        while (cursor.Take('&')) { }
        if (cursor.Take(')'))
        {
            inGroupOverlay = false;
            state.IsGroup = false;
            bars.IsMuted = false;
            return;
        }
        log.NoteOnce(cursor.Line, column, "a second line of music within the voice (&) is kept aside");
        inGroupOverlay = state.IsGroup;
        bars.IsMuted = true;
    }

    private Pitch? PitchOf(NoteSign note, int line, int column)
    {
        var alter = note.Alter ?? accidentals.Of(note.Letter, note.Octave);
        if (alter is null && bars.TiedPitch is { } tied && state.IsWritten(tied, note))
            alter = tied.Name.Alter;
        else if (note.Alter is { } own && !bars.IsMuted)
            accidentals.Set(note.Letter, note.Octave, own);
        var pitch = state.Sounding(
            new(new(note.Letter, alter ?? state.KeyField.Alters[(int)note.Letter]), note.Octave)
        );
        if (pitch.Midi is >= 0 and <= 127)
            return pitch;
        log.Error(line, column, "a note beyond what any instrument sounds", "take out octave marks");
        return null;
    }

    private void Write(Pitch? pitch, Fraction times, bool isTied, int line, int column)
    {
        var length = times * state.UnitLength;
        if (tupletLeft > 0 && !bars.IsMuted)
        {
            length *= tupletScale;
            tupletLeft--;
        }
        bars.Add(pitch, length, isTied, line, column);
    }
}
