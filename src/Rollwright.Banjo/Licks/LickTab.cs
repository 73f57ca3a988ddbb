using System.Collections.Immutable;
using System.Globalization;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Banjo.Licks;

/// <summary>
/// Reads the one-line tab of licks, "3.2Ts4 2.0I 5.0T h2 3.0T+1.0M -": a token a step. The grammar stands in
/// docs/licks.md; <see cref="LickTabWriter"/> is the opposite.
/// </summary>
public static class LickTab
{
    /// <summary>More steps than this are no lick: four bars of a reel (our own bound).</summary>
    public const int MostSteps = 32;

    /// <summary>The finger over a fret in first position: 1 index to 4 little, which also has what lies above.</summary>
    public static int UsualFinger(int fret) => Math.Min(4, fret);

    /// <exception cref="LickTabException">A token is wrong; the message names it.</exception>
    public static ImmutableArray<LickStep> Read(string text)
    {
        var steps = ImmutableArray.CreateBuilder<LickStep>();
        LickNote? last = null;
        foreach (var (offset, word) in Tokens(text))
        {
            var token = new Token(offset, word);
            if (steps.Count == MostSteps)
                throw token.Wrong($"a lick has {MostSteps} steps at most; '{word}' is one more");
            if (word == "-")
            {
                steps.Add(LickStep.Rest);
                last = null;
            }
            else if (word[0] is 'h' or 'p' or 's')
            {
                var from = last ?? throw token.Wrong($"'{word}' has no plucked note to start from");
                steps.Add(new([], Slur(token, word, from), null));
                last = null;
            }
            else
            {
                steps.Add(Plucks(token));
                last = steps[^1].Plucks is [var one] && steps[^1].HalfSlur is null ? one : null;
            }
        }
        if (steps.All(step => step.IsRest))
            throw new LickTabException(0, "the tab has no note; write a token a step, such as 3.0T 2.0I 5.0T 1.0M");
        return steps.ToImmutable();
    }

    private static IEnumerable<(int Offset, string Word)> Tokens(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (char.IsWhiteSpace(text[i]))
                continue;
            var end = i;
            while (end < text.Length && !char.IsWhiteSpace(text[end]))
                end++;
            yield return (i, text[i..end]);
            i = end;
        }
    }

    private static LickStep Plucks(Token token)
    {
        var word = token.Word;
        var slurAt = word.AsSpan(1).IndexOfAny("hps");
        var plain = slurAt < 0 ? word : word[..(slurAt + 1)];
        var notes = plain.Split('+').Select(part => Note(token, part)).OrderBy(note => note.String).ToImmutableArray();
        for (var i = 1; i < notes.Length; i++)
        {
            if (notes[i].String == notes[i - 1].String)
                throw token.Wrong($"'{word}' asks string {notes[i].String} for two notes at once");
        }
        if (slurAt < 0)
            return new(notes, null, null);
        if (notes.Length > 1)
            throw token.Wrong($"'{word}' slurs out of a pinch; a slur starts from a single note");
        return new(notes, null, Slur(token, word[(slurAt + 1)..], notes[0]));
    }

    private static LickNote Note(Token token, string part)
    {
        var (text, left) = Finger(token, part);
        if (
            text.Length >= 4
            && text[0] is >= '1' and <= '5'
            && text[1] == '.'
            && Fret(text.AsSpan(2, text.Length - 3)) is { } fret
            && Right(text[^1]) is { } right
        )
            return new(text[0] - '0', fret, right, Left(token, fret, left));
        throw token.Wrong($"'{part}' is not a note such as 3.2T: string 1 to 5, fret, finger T, I or M");
    }

    private static LickSlur Slur(Token token, string part, LickNote from)
    {
        var (text, left) = Finger(token, part);
        if (Fret(text.AsSpan(1)) is not { } fret)
            throw token.Wrong($"'{part}' is not a slur such as h2, p0, s4");
        if (text[0] == 's')
        {
            // The finger that slides stays the same.
            if (left is not null)
                throw token.Wrong($"'{part}': a slide keeps its finger; name it at the note before");
            return new(SlurKind.Slide, from.String, fret, from.Left);
        }
        var kind = text[0] == 'h' ? SlurKind.HammerOn : SlurKind.PullOff;
        return new(kind, from.String, fret, Left(token, fret, left));
    }

    private static int Left(Token token, int fret, int? named) =>
        fret == 0 && named is not null
            ? throw token.Wrong($"'{token.Word}': an open string takes no finger")
            : named ?? UsualFinger(fret);

    private static (string Text, int? Left) Finger(Token token, string part)
    {
        var colon = part.IndexOf(':', StringComparison.Ordinal);
        if (colon < 0)
            return (part, null);
        return part[(colon + 1)..] is [>= '1' and <= '4'] finger
            ? (part[..colon], finger[0] - '0')
            : throw token.Wrong($"'{part}' names no left-hand finger from 1 to 4 behind the colon");
    }

    private static int? Fret(ReadOnlySpan<char> text) =>
        text.Length <= 2 && int.TryParse(text, NumberStyles.None, null, out var fret) ? fret : null;

    private static RightFinger? Right(char letter) =>
        letter switch
        {
            'T' => RightFinger.T,
            'I' => RightFinger.I,
            'M' => RightFinger.M,
            _ => null,
        };

    private readonly record struct Token(int Offset, string Word)
    {
        public LickTabException Wrong(string message) => new(Offset, message);
    }
}
