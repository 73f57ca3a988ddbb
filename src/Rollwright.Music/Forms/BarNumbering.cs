using System.Collections.Immutable;
using System.Globalization;
using Rollwright.Music.Metre;

namespace Rollwright.Music.Forms;

/// <summary>
/// Bars as people count them, the one count of the page, the words, and what people type. Full bars are counted from 1,
/// those of every ending too; a bar short at its front (a pickup, or the rest of a bar that a repeat cut in two) has the
/// number of the bar before it: a pickup at the start is bar 0. Beats are counted where the full bar would begin, so that
/// a pickup of a quarter in 4/4 is beat 4; in 6/8 the eighths are counted, as in the tab.
/// </summary>
public sealed class BarNumbering
{
    private readonly ImmutableArray<NumberedBar> bars;
    private readonly ImmutableArray<Fraction> beats;

    private BarNumbering(ImmutableArray<NumberedBar> bars, ImmutableArray<Fraction> beats)
    {
        this.bars = bars;
        this.beats = beats;
    }

    public NumberedBar this[int bar] => bars[bar];

    /// <summary>The number of the first bar: 0 where the tune has a pickup, else 1.</summary>
    public int First => bars[0].Number;

    /// <summary>The highest number.</summary>
    public int Last => bars.Max(bar => bar.Number);

    /// <param name="written">Length, metre and marks of the written bars; at least one.</param>
    public static BarNumbering Of(IReadOnlyList<(Fraction Length, TimeSignature Time, BarMarks Marks)> written)
    {
        var bars = ImmutableArray.CreateBuilder<NumberedBar>(written.Count);
        var named = new Dictionary<string, List<(Fraction From, Fraction To)>>();
        var number = 0;
        // The bar from which the endings part, and whether the bracket of one is open.
        var (fork, isInEnding, isOpen) = (-1, false, false);
        for (var i = 0; i < written.Count; i++)
        {
            var (length, time, marks) = written[i];
            var startsEnding = !marks.EndingStart.IsEmpty;
            if (startsEnding && !isInEnding)
                fork = i - 1;
            isOpen |= startsEnding;
            isInEnding = isOpen;
            var before = startsEnding ? fork : i - 1;
            var completes = before >= 0 && Completes(written[before].Length, bars[before], length, time);
            var isShortInFront = length < time.Bar && (completes || LeadsIn(written, i));
            if (!isShortInFront)
                number++;
            var own = completes && isShortInFront ? bars[before].Number : number;
            var missing = isShortInFront ? time.Bar - length : Fraction.Zero;
            bars.Add(new(own, NameOf(own, missing, missing + length, named), missing));
            isOpen &= !marks.ClosesEnding;
        }
        return new(bars.MoveToImmutable(), [.. written.Select(bar => bar.Time.Count)]);
    }

    /// <summary>"bar 3, beat 2.5".</summary>
    /// <param name="bar">Index of the written bar.</param>
    /// <param name="at">Whole notes from its start.</param>
    public string Place(int bar, Fraction at) =>
        string.Create(CultureInfo.InvariantCulture, $"bar {bars[bar].Name}, beat {Beat(bar, at):0.##}");

    /// <summary>
    /// "bar 5", "bars 5–6", "bars 7 and 9". A pickup is not said beside full bars: it belongs to the bar that it leads into.
    /// </summary>
    /// <param name="written">Indices of written bars, in order; at least one.</param>
    public string Words(IReadOnlyList<int> written)
    {
        ArgumentNullException.ThrowIfNull(written);
        var said = written.Where(bar => !bars[bar].IsShortInFront).DefaultIfEmpty(written[0]).ToList();
        var (first, last) = (bars[said[0]], bars[said[^1]]);
        if (first.Name == last.Name)
            return $"bar {first.Name}";
        // Into a second ending one jumps.
        return last.Number - first.Number == said.Count - 1
            ? $"bars {first.Name}–{last.Name}"
            : $"bars {string.Join(", ", said.SkipLast(1).Select(bar => bars[bar].Name))} and {last.Name}";
    }

    /// <summary>Beats from 1, where the full bar would begin: 2.5 is half way from the second to the third.</summary>
    /// <param name="bar">Index of the written bar.</param>
    /// <param name="at">Whole notes from its start.</param>
    public double Beat(int bar, Fraction at) => 1 + ((at + bars[bar].Missing) / beats[bar]).ToDouble();

    /// <summary>The written bars of a name, in order: two where a repeat cut one in two; none where there is no such bar.</summary>
    public ImmutableArray<int> Named(string name) =>
        [.. Enumerable.Range(0, bars.Length).Where(bar => bars[bar].Name == name)];

    /// <summary>What stands over a line that begins with a bar: a pickup leads to the next number.</summary>
    public int AtLineStart(int bar)
    {
        for (var i = bar; i < bars.Length; i++)
        {
            if (!bars[i].IsShortInFront)
                return bars[i].Number;
        }
        return bars[bar].Number;
    }

    // A short bar leads in where something starts with it or was over before it; otherwise it is the end that a pickup leaves.
    private static bool LeadsIn(IReadOnlyList<(Fraction Length, TimeSignature Time, BarMarks Marks)> written, int index)
    {
        if (index == 0 || written[index].Marks is { RepeatStart: true } or { Part: not null })
            return true;
        return written[index].Marks.EndingStart.IsEmpty
            && written[index - 1].Marks is { RepeatEnd: > 1 } or { SectionEnd: true } or { EndingStop: true };
    }

    // The two halves of a bar that was cut; where all bars are shorter than the metre says, each counts.
    private static bool Completes(Fraction lengthBefore, NumberedBar before, Fraction length, TimeSignature time) =>
        !before.IsShortInFront && lengthBefore < time.Bar && lengthBefore + length <= time.Bar;

    // Of what is named so far, the first letter under which no bar has one of these beats; the first is none.
    private static string NameOf(
        int number,
        Fraction from,
        Fraction to,
        Dictionary<string, List<(Fraction From, Fraction To)>> named
    )
    {
        for (var letter = 0; ; letter++)
        {
            var name =
                letter == 0
                    ? $"{number}"
                    : $"{number}{new string('z', (letter - 1) / 25)}{(char)('b' + ((letter - 1) % 25))}";
            if (!named.TryGetValue(name, out var spans))
                named[name] = spans = [];
            if (spans.Exists(span => span.From < to && from < span.To))
                continue;
            spans.Add((from, to));
            return name;
        }
    }
}

/// <summary>A written bar as people count it.</summary>
/// <param name="Number">0 for a pickup at the start, else 1 and up.</param>
/// <param name="Name">
/// The number; where a bar before has the same number and one of its beats (a pickup after a full bar, the rest of a bar in
/// the second ending), with a letter: "8b".
/// </param>
/// <param name="Missing">Whole notes of the full bar that lie before it; 0 where it begins with beat 1.</param>
public readonly record struct NumberedBar(int Number, string Name, Fraction Missing)
{
    /// <summary>A pickup, or the rest of a bar that was cut in two.</summary>
    public bool IsShortInFront => Missing > Fraction.Zero;
}
