using System.Collections.Immutable;
using Rollwright.Formats.Messages;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc;

/// <summary>Puts what is read one after another into written bars: time, ties, broken rhythm, repeats, endings.</summary>
internal sealed class BarWriter(MessageLog log)
{
    private readonly List<TuneBar> bars = [];
    private readonly List<Note> notes = [];
    private readonly List<ChordAt> chords = [];
    private readonly Ties ties = new();
    private Fraction at;
    private TimeSignature time = TimeSignature.Common;
    private TimeSignature barTime = TimeSignature.Common;
    private Key key;
    private Key barKey;
    private Chord? pendingChord;
    private bool pendingStart;
    private ImmutableArray<int> pendingEnding = [];
    private string? pendingPart;
    private bool inEnding;
    private int openRepeatLine;
    private bool isFull;
    private int signs;

    // The last thing that takes time in this bar: broken rhythm changes it when it is already written.
    private (Fraction At, Fraction Length, bool IsNote)? last;
    private Fraction pendingBroken = new(1);

    /// <summary>While set, an overlay is read: nothing takes time.</summary>
    public bool IsMuted { get; set; }

    public int BarCount => bars.Count;

    /// <summary>Whether the tune has all that is read of one.</summary>
    public bool IsFull => isFull;

    public bool HasNotes { get; private set; }

    public TimeSignature Time
    {
        get => time;
        set
        {
            time = value;
            if (at == Fraction.Zero)
                barTime = value;
        }
    }

    public Key Key
    {
        get => key;
        set
        {
            key = value;
            if (at == Fraction.Zero)
                barKey = value;
        }
    }

    /// <summary>Pitch of a tie that a note of this letter and octave would go on from; its accidental reaches over the bar line.</summary>
    public Pitch? TiedPitch => ties.Pitch;

    public void SetChord(Chord chord)
    {
        if (!IsMuted)
            pendingChord = chord;
    }

    /// <summary>Writes a note (or a rest, where <paramref name="pitch"/> is null).</summary>
    public void Add(Pitch? pitch, Fraction length, bool isTied, int line, int column)
    {
        if (IsMuted || isFull)
            return;
        if (++signs > AbcLimits.MostNotes)
        {
            Fill(line, column, $"{AbcLimits.MostNotes} notes");
            return;
        }
        var sounding = Fit(length * pendingBroken, line, column);
        pendingBroken = new(1);
        if (sounding is not { } value)
            return;
        if (at + value > new Fraction(AbcLimits.LongestBar))
        {
            log.Error(line, column, $"a bar lasts longer than {AbcLimits.LongestBar} whole notes", "put bar lines");
            Close(BarLine.Plain, line, column);
        }
        if (pendingChord is { } chord)
        {
            if (chords.Count > 0 && chords[^1].At == at)
                chords.RemoveAt(chords.Count - 1);
            chords.Add(new(at, chord));
            pendingChord = null;
        }
        if (pitch is { } sound)
        {
            var joins = ties.Joins(sound);
            if (!joins && ties.Pitch is not null)
                log.NoteOnce(line, column, "a tie to another pitch is read as a slur");
            notes.Add(new(at, value, sound, joins));
            HasNotes = true;
        }
        ties.After(pitch, isTied);
        last = (at, value, pitch is not null);
        at += value;
    }

    /// <summary>A tie's dash that stands apart from its note.</summary>
    public void Tie()
    {
        if (!IsMuted)
            ties.Open();
    }

    /// <summary>Broken rhythm (ABC 2.1, section 4.4): the note before is dotted <paramref name="times"/>-fold, or halved so.</summary>
    public void Break(int times, bool isLongFirst, int line, int column)
    {
        if (IsMuted)
            return;
        if (last is not { } before || times > 3)
        {
            log.Error(
                line,
                column,
                "broken rhythm needs a note before it in its bar, and at most three signs",
                "write the lengths out"
            );
            return;
        }
        var small = new Fraction(1, 1 << times);
        var large = new Fraction(2) - small;
        if (Fit(before.Length * (isLongFirst ? large : small), line, column) is not { } changed)
            return;
        if (before.IsNote)
            notes[^1] = notes[^1] with { Length = changed };
        at = before.At + changed;
        last = before with { Length = changed };
        pendingBroken = isLongFirst ? small : large;
    }

    public void RestBars(int count, int line, int column)
    {
        if (IsMuted)
            return;
        if (at > Fraction.Zero)
            Close(BarLine.Plain, line, column);
        for (var i = 1; i <= Math.Clamp(count, 1, AbcLimits.MostRestBars) && !isFull; i++)
        {
            if (i > 1)
                Close(BarLine.Plain, line, column);
            Add(null, time.Bar, false, line, column);
        }
    }

    /// <summary>A part's label; it starts a bar.</summary>
    public void StartPart(string label, int line, int column)
    {
        Close(BarLine.Plain, line, column);
        pendingPart = label;
    }

    public void StartEnding(ImmutableArray<int> passes, int line, int column)
    {
        IsMuted = false;
        Close(BarLine.Plain, line, column);
        if (inEnding)
            ChangeLast(marks => marks with { EndingStop = true });
        ties.StartEnding(inEnding || (bars.Count > 0 && bars[^1].Marks.EndingStop));
        inEnding = true;
        pendingEnding = passes;
    }

    /// <summary>A bar line; without notes since the last one, its signs count for the bar before.</summary>
    public void Close(BarLine barLine, int line, int column)
    {
        IsMuted = false;
        if (at > Fraction.Zero)
            WriteBar(line, column);
        if (barLine.RepeatEnd > 0)
            EndRepeat(barLine.RepeatEnd, line, column);
        if (barLine.IsSection)
            ChangeLast(marks => marks with { SectionEnd = true });
        if (inEnding && barLine.EndsEnding && pendingEnding.IsEmpty)
        {
            ChangeLast(marks => marks with { EndingStop = true });
            inEnding = false;
        }
        if (!barLine.RepeatStart)
            return;
        if (openRepeatLine > 0)
            log.Warning(
                line,
                column,
                $"a repeat starts, but the one of line {openRepeatLine} has no end",
                "put :| where it ends; without it, it is played once"
            );
        openRepeatLine = line;
        pendingStart = true;
    }

    /// <summary>The bars, when the tune is over.</summary>
    public List<TuneBar> Finish(int line)
    {
        Close(BarLine.Plain, line, 1);
        if (inEnding)
            ChangeLast(marks => marks with { EndingStop = true });
        if (openRepeatLine > 0 && bars.Count > 0 && !inEnding)
            log.Warning(
                openRepeatLine,
                1,
                "a repeat starts in this line and never ends",
                "put :| where it ends; without it, it is played once"
            );
        return bars;
    }

    private void EndRepeat(int passes, int line, int column)
    {
        if (bars.Count == 0 || pendingStart)
        {
            log.Error(line, column, "a repeat ends before any note", "leave the sign out");
            return;
        }
        openRepeatLine = 0;
        ChangeLast(marks => marks with { RepeatEnd = Math.Max(marks.RepeatEnd, passes) });
    }

    private void ChangeLast(Func<BarMarks, BarMarks> change)
    {
        if (bars.Count > 0)
            bars[^1] = bars[^1] with { Marks = change(bars[^1].Marks) };
    }

    private void Fill(int line, int column, string bound)
    {
        if (!isFull)
            log.Error(line, column, $"a tune of more than {bound}; the rest is left out", "part it into tunes");
        isFull = true;
    }

    private void WriteBar(int line, int column)
    {
        if (bars.Count >= AbcLimits.MostBars)
        {
            Fill(line, column, $"{AbcLimits.MostBars} bars");
        }
        else
        {
            if (at > barTime.Bar)
                log.Warning(
                    line,
                    column,
                    $"the bar lasts {at} of a whole note in {barTime}",
                    "put a bar line or mend the lengths"
                );
            bars.Add(
                new()
                {
                    Length = at,
                    Notes = [.. notes],
                    Chords = [.. chords],
                    Time = barTime,
                    Key = barKey,
                    Marks = new()
                    {
                        RepeatStart = pendingStart,
                        EndingStart = pendingEnding,
                        Part = pendingPart,
                    },
                }
            );
        }
        pendingStart = false;
        pendingEnding = [];
        pendingPart = null;
        notes.Clear();
        chords.Clear();
        at = Fraction.Zero;
        last = null;
        barTime = time;
        barKey = key;
    }

    // Lengths that the grid cannot hold are rounded to a 64th, so that sums stay exact.
    private Fraction? Fit(Fraction length, int line, int column)
    {
        if (length <= Fraction.Zero || length > new Fraction(AbcLimits.LongestBar))
        {
            log.Error(
                line,
                column,
                "a note or rest of no length, or of one that no bar holds",
                "write a length such as 2 or 1/2"
            );
            return null;
        }
        if (AbcLimits.Grid % length.Denominator == 0)
            return length;
        var rounded = new Fraction(Math.Max(1, (long)Math.Round(length.ToDouble() * 64)), 64);
        log.Warning(
            line,
            column,
            $"a length of {length} of a whole note is read as {rounded}",
            "write a usual length or a tuplet"
        );
        return rounded;
    }
}
