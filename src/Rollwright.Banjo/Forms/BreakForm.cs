using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Forms;

namespace Rollwright.Banjo.Forms;

/// <summary>Parts and phrases of a break: what the page, the words and the practice count alike.</summary>
public static class BreakForm
{
    /// <summary>The phrases of all parts, in order: that of number n at index n − 1.</summary>
    public static ImmutableArray<Phrase> Phrases(Break played) => [.. Of(played).SelectMany(part => part.Phrases)];

    /// <summary>The phrase that a written bar belongs to.</summary>
    /// <param name="played">The break.</param>
    /// <param name="bar">Index of the written bar.</param>
    public static Phrase PhraseOf(Break played, int bar) => Phrases(played).First(phrase => phrase.Bars.Contains(bar));

    public static ImmutableArray<Part> Of(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var numbering = played.Numbering;
        ImmutableArray<(BarMarks Marks, bool IsPickup)> bars =
        [
            .. played.Bars.Select((bar, i) => (bar.Marks, numbering[i].IsShortInFront)),
        ];
        var ends = new PartEnds(bars);
        var numbers = new PhraseNumbers(bars);
        var known = new Dictionary<string, int>(StringComparer.Ordinal);
        var parts = ImmutableArray.CreateBuilder<Part>();
        var first = 0;
        for (var i = 1; i <= bars.Length; i++)
        {
            if (!ends.Before(i))
                continue;
            var (start, part) = (first, bars[first..i]);
            var phrases = Enumerable
                .Range(start, i - start)
                .GroupBy(numbers.Of, (number, of) => PhraseOf(number, start, [.. of]));
            parts.Add(
                new(
                    part.Select(bar => bar.Marks.Part).FirstOrDefault(name => name is { Length: > 0 })
                        ?? $"{(char)('A' + (parts.Count % 26))}",
                    part.Max(bar => Math.Max(1, bar.Marks.RepeatEnd)),
                    [.. phrases]
                )
            );
            first = i;
        }
        return parts.ToImmutable();

        Phrase PhraseOf(int number, int start, ImmutableArray<int> of)
        {
            var ending = EndingOf(bars, start, of[^1]);
            var music = string.Join(
                '|',
                of.Where(bar => !bars[bar].IsPickup).Select(bar => StrokesOf(played.Bars[bar]))
            );
            if (music.Trim('|').Length == 0)
                return new(number, of, ending, number);
            known.TryAdd(music, number);
            return new(number, of, ending, known[music]);
        }
    }

    private static string StrokesOf(BreakBar bar) =>
        string.Join(
            ' ',
            bar.Strokes.Select(stroke =>
                $"{stroke.At}:{stroke.String}.{stroke.Fret}{stroke.Right}{stroke.Slur}{stroke.Left}"
            )
        );

    // "1." for bars of the first ending, "1.2." where an ending is played on several passes.
    private static string EndingOf(ImmutableArray<(BarMarks Marks, bool IsPickup)> bars, int start, int bar)
    {
        for (var i = bar; i >= start; i--)
        {
            var marks = bars[i].Marks;
            if (i != bar && marks.ClosesEnding)
                return "";
            if (!marks.EndingStart.IsEmpty)
                return string.Concat(marks.EndingStart.Select(pass => $"{pass}."));
        }
        return "";
    }
}
