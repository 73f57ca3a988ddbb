using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc.Writing;

/// <summary>Writes the bars of a tune: a line of music for every four bars and for every section.</summary>
internal sealed class AbcBody
{
    private const int BarsOfLine = 4;

    private readonly Tune tune;
    private readonly HashSet<int> starts = [];
    private readonly HashSet<int> ends = [];
    private readonly StringBuilder text = new();

    public AbcBody(Tune tune)
    {
        this.tune = tune;
        // Where play goes back is a repeat, whether its signs were written or understood; elsewhere none is written.
        var order = tune.Order;
        for (var i = 1; i < order.Length; i++)
        {
            if (order[i] > order[i - 1])
                continue;
            starts.Add(order[i]);
            ends.Add(order[i - 1]);
        }
    }

    public string Write()
    {
        // Full bars of the line so far; a pickup is none, and -1 says that nothing stands there yet.
        var onLine = -1;
        for (var i = 0; i < tune.Bars.Length; i++)
        {
            var bar = tune.Bars[i];
            var isPart = bar.Marks.Part is { Length: > 0 };
            if (onLine >= 0 && (isPart || onLine >= BarsOfLine || starts.Contains(i)))
            {
                text.Append('\n');
                onLine = -1;
            }
            if (isPart)
                text.Append("P:").Append(TextString.Write(bar.Marks.Part!)).Append('\n');
            text.Append(onLine >= 0 ? " " : "").Append(starts.Contains(i) ? "|: " : "");
            if (!bar.Marks.EndingStart.IsEmpty)
                text.Append('[').AppendJoin(',', bar.Marks.EndingStart).Append(' ');
            Changes(i);
            Music(i);
            text.Append(' ').Append(Right(i));
            onLine = Math.Max(onLine, 0) + (bar.IsPartial ? 0 : 1);
        }
        return text.Append('\n').ToString();
    }

    private string Right(int index)
    {
        var marks = tune.Bars[index].Marks;
        var isLast = index + 1 == tune.Bars.Length;
        if (ends.Contains(index))
            return ":|";
        if (isLast && (marks.SectionEnd || marks.EndingStop))
            return "|]";
        // An ending that is followed by another one stops there by itself.
        var stops = marks.EndingStop && !isLast && tune.Bars[index + 1].Marks.EndingStart.IsEmpty;
        return marks.SectionEnd || stops ? "||" : "|";
    }

    // Metre and key hold in the order of the text; where play comes from elsewhere they are said again.
    private void Changes(int index)
    {
        var bar = tune.Bars[index];
        var isReached = starts.Contains(index) || !bar.Marks.EndingStart.IsEmpty;
        var time = index == 0 ? tune.Time : tune.Bars[index - 1].Time;
        if (bar.Time != time || (isReached && tune.Bars.Any(one => one.Time != tune.Time)))
            text.Append(CultureInfo.InvariantCulture, $"[M:{bar.Time}]");
        var key = index == 0 ? tune.Key : tune.Bars[index - 1].Key;
        if (bar.Key != key || (isReached && tune.Bars.Any(one => one.Key != tune.Key)))
            text.Append($"[K:{AbcWriter.Name(bar.Key)}]");
    }

    private void Music(int index)
    {
        var bar = tune.Bars[index];
        var signs = AbcSign.Of(bar);
        var accidentals = new WrittenAccidentals(bar.Key);
        // A short first bar leads in, and ends where the full bar ends.
        var offset = index == 0 && bar.IsPartial ? bar.Time.Bar - bar.Length : Fraction.Zero;
        var tupletLeft = 0;
        for (var i = 0; i < signs.Count; i++)
        {
            var sign = signs[i];
            if (i > 0 && IsBeamEnd(signs[i - 1].At + offset, sign, offset, bar.Time))
                text.Append(' ');
            if (sign.Chord is { } chord)
                text.Append('"').Append(chord).Append('"');
            if (tupletLeft == 0 && sign.Value.IsTuplet)
            {
                tupletLeft = TupletSize(signs, i);
                text.Append(CultureInfo.InvariantCulture, $"({sign.Value.Actual}:{sign.Value.Normal}:{tupletLeft}");
            }
            Sign(sign, i + 1 < signs.Count ? signs[i + 1].Notes : Next(index), accidentals);
            tupletLeft = Math.Max(0, tupletLeft - 1);
        }
    }

    private static bool IsBeamEnd(Fraction before, AbcSign sign, Fraction offset, TimeSignature time) =>
        (before / time.BeamGroup).Floor() != ((sign.At + offset) / time.BeamGroup).Floor();

    // A tuplet runs until its signs add up to a plain length again, or to where another ratio begins.
    private static int TupletSize(List<AbcSign> signs, int first)
    {
        var (actual, normal) = (signs[first].Value.Actual, signs[first].Value.Normal);
        var sum = Fraction.Zero;
        for (var i = first; i < signs.Count; i++)
        {
            if (signs[i].Value.Actual != actual || signs[i].Value.Normal != normal)
                return i - first;
            sum += signs[i].Length;
            if ((sum.Denominator & (sum.Denominator - 1)) == 0)
                return i - first + 1;
        }
        return signs.Count - first;
    }

    private ImmutableArray<Note> Next(int index)
    {
        var next = index + 1 < tune.Bars.Length ? tune.Bars[index + 1].Notes : [];
        return [.. next.Where(note => note.At == Fraction.Zero)];
    }

    private void Sign(AbcSign sign, ImmutableArray<Note> next, WrittenAccidentals accidentals)
    {
        var unit = tune.Time.Step;
        var length = sign.Length * new Fraction(sign.Value.Actual, sign.Value.Normal) / unit;
        if (sign.Notes.IsEmpty)
        {
            text.Append('z').Append(NoteText.Times(length));
            return;
        }
        var isTogether = sign.Notes.Length > 1;
        if (isTogether)
            text.Append('[');
        foreach (var note in sign.Notes)
        {
            text.Append(accidentals.Of(note.Pitch)).Append(NoteText.Name(note.Pitch));
            if (!isTogether)
                text.Append(NoteText.Times(length));
            if (sign.GoesOn || next.Any(one => one.TiedFromBefore && one.Pitch.Midi == note.Pitch.Midi))
                text.Append('-');
        }
        if (isTogether)
            text.Append(']').Append(NoteText.Times(length));
    }
}
