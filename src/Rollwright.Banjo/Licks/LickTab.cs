using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Banjo.Licks;

/// <summary>Reads the one-line tab of licks: "3.2Ts4 2.0I 5.0T h2 3.0T+1.0M -" (the grammar stands in data/licks.txt).</summary>
public static class LickTab
{
    /// <exception cref="FormatException">A token is wrong; the message names it.</exception>
    public static ImmutableArray<LickStep> Read(string text)
    {
        var steps = ImmutableArray.CreateBuilder<LickStep>();
        LickNote? last = null;
        foreach (var token in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (token == "-")
            {
                steps.Add(new([], null, null));
                last = null;
            }
            else if (token[0] is 'h' or 'p' or 's')
            {
                var slur = ReadSlur(
                    token,
                    last ?? throw new FormatException($"'{token}' has no plucked note to start from")
                );
                steps.Add(new([], slur, null));
                last = null;
            }
            else
            {
                steps.Add(ReadPlucks(token));
                last = steps[^1].Plucks is [var one] && steps[^1].HalfSlur is null ? one : null;
            }
        }
        return steps.ToImmutable();
    }

    private static LickStep ReadPlucks(string token)
    {
        var slurAt = token.AsSpan(1).IndexOfAny("hps");
        var plain = slurAt < 0 ? token : token[..(slurAt + 1)];
        var notes = plain.Split('+').Select(ReadNote).OrderBy(note => note.String).ToImmutableArray();
        if (slurAt < 0)
            return new(notes, null, null);
        if (notes.Length > 1)
            throw new FormatException($"'{token}' slurs out of a pinch");
        return new(notes, null, ReadSlur(token[(slurAt + 1)..], notes[0]));
    }

    private static LickNote ReadNote(string token)
    {
        var (text, left) = Finger(token);
        if (
            text.Length >= 4
            && text[0] is >= '1' and <= '5'
            && text[1] == '.'
            && int.TryParse(text[2..^1], out var fret)
            && Enum.TryParse<RightFinger>(text[^1..], out var right)
        )
        {
            return new(text[0] - '0', fret, right, left ?? Usual(fret));
        }
        throw new FormatException($"'{token}' is not a note such as 3.2T: string, fret, finger");
    }

    private static LickSlur ReadSlur(string token, LickNote from)
    {
        var (text, left) = Finger(token);
        if (!int.TryParse(text.AsSpan(1), out var fret))
            throw new FormatException($"'{token}' is not a slur such as h2, p0, s4");
        return text[0] switch
        {
            'h' => new(SlurKind.HammerOn, from.String, fret, left ?? Usual(fret)),
            'p' => new(SlurKind.PullOff, from.String, fret, left ?? Usual(fret)),
            // The finger that slides stays the same.
            _ => new(SlurKind.Slide, from.String, fret, from.Left),
        };
    }

    private static (string Text, int? Left) Finger(string token)
    {
        var colon = token.IndexOf(':', StringComparison.Ordinal);
        if (colon < 0)
            return (token, null);
        return int.TryParse(token.AsSpan(colon + 1), out var finger) && finger is >= 1 and <= 4
            ? (token[..colon], finger)
            : throw new FormatException($"'{token}' names no finger from 1 to 4");
    }

    private static int Usual(int fret) => Math.Min(4, fret);
}
