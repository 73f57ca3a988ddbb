using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.TextTab.Reading;

/// <summary>Puts what stands on a page together: bars, times, strokes, fingers, words.</summary>
internal sealed class TabAssembly
{
    private readonly TabPage page;
    private readonly MessageLog log;
    private readonly TabHead head;
    private readonly List<TabWords> words;
    private readonly List<TabBar> bars;
    private readonly ILookup<int, TabNumber> numbers;
    private readonly TimeSignature time;
    private readonly int lead;
    private readonly int usualWidth;
    private RightFinger? before;

    public TabAssembly(TabPage page, MessageLog log)
    {
        this.page = page;
        this.log = log;
        head = TabHead.Of(page);
        words = [.. page.Systems.Select(TabWords.Of)];
        bars = [.. page.Systems.SelectMany(TabBar.Of)];
        if (bars.Count > AbcLimits.MostBars)
        {
            log.Error(Line, 1, $"more than {AbcLimits.MostBars} bars; the rest is left out", "part the page");
            bars.RemoveRange(AbcLimits.MostBars, bars.Count - AbcLimits.MostBars);
        }
        numbers = TabNumber.All(page, bars, log).ToLookup(number => number.Bar);
        foreach (var system in numbers.GroupBy(own => bars[own.Key].System))
            words[system.Key].AlignCounts([.. system.SelectMany(own => own).Select(one => one.Column)]);
        time = head.Time ?? GuessTime();
        lead = Lead();
        usualWidth = bars.GroupBy(bar => bar.Width)
            .OrderByDescending(same => same.Count())
            .ThenByDescending(same => same.Key)
            .Select(same => same.Key)
            .FirstOrDefault(1);
    }

    private int Line => page.Systems[0].Strings[0].Number;

    public Break? Read()
    {
        if (numbers.Count == 0)
        {
            log.Error(Line, 1, "no string of the page has a number", "write frets on the strings");
            return null;
        }
        if (words.TrueForAll(one => one.Counts.Count == 0))
            log.NoteOnce(Line, 1, "there is no count below the strings; the spacing is taken for the rhythm");
        if (words.TrueForAll(one => one.Fingers.Count == 0))
            log.NoteOnce(Line, 1, "there are no fingers below the strings; the usual ones are taken");
        return new()
        {
            Title = head.Title,
            Composer = head.Composer,
            Setting = head.Setting(Line, log),
            Time = time,
            Tempo = head.Tempo ?? new(time.Beat, 80),
            Swing = head.Swing,
            Bars = WithEndings([.. bars.Select(Bar)]),
        };
    }

    private BreakBar Bar(TabBar bar, int index)
    {
        var own = words[bar.System];
        var clock = Clock(bar, index);
        var times = Times([.. numbers[index].Select(number => number.Column).Distinct().Order()], clock, bar);
        var strokes = numbers[index]
            .GroupBy(number => times[number.Column])
            .OrderBy(group => group.Key)
            .SelectMany(group =>
                Together(
                    group.Key,
                    [.. group.DistinctBy(number => number.String).OrderBy(number => number.String)],
                    own
                )
            )
            .ToList();
        return new()
        {
            Length = clock.Length,
            Time = time,
            Marks = Marks(bar, index, own),
            Strokes = Lengths(strokes, clock.Length),
            Chords = Chords(bar, own, clock),
        };
    }

    // What stands behind one another is played so: where the grid cannot tell columns apart, they are spread evenly.
    private Dictionary<int, Fraction> Times(List<int> columns, TabClock clock, TabBar bar)
    {
        var times = columns.ConvertAll(clock.At);
        if (times.Distinct().Count() < columns.Count)
        {
            log.NoteOnce(
                page.Systems[bar.System].Strings[0].Number,
                bar.Start + 1,
                "some bars keep to no even grid; their notes are spread evenly in their order"
            );
            var unit =
                clock.Length / new Fraction((long)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)columns.Count));
            times = [.. columns.Select((_, i) => unit * i)];
        }
        return columns.Zip(times).ToDictionary(pair => pair.First, pair => pair.Second);
    }

    private ImmutableArray<ChordAt> Chords(TabBar bar, TabWords own, TabClock clock) =>
        [
            .. own
                .Chords.Where(chord => IsIn(bar, chord.Column))
                .Select(chord => new ChordAt(clock.At(chord.Column), chord.Chord))
                .GroupBy(chord => chord.At)
                .Select(group => group.Last()),
        ];

    private IEnumerable<Stroke> Together(Fraction at, List<TabNumber> group, TabWords own)
    {
        var plucked = group.Where(number => number.Slur is null).ToList();
        var fingers = FingersOf(plucked, own);
        foreach (var number in group)
        {
            var place = plucked.IndexOf(number);
            yield return new()
            {
                At = at,
                Length = time.Step,
                String = number.String,
                Fret = number.Fret,
                Slur = number.Slur,
                Right = place < 0 ? null : fingers[place],
            };
        }
        before = plucked.Count == 1 ? fingers[0] : null;
    }

    // The rows of fingers begin with the lowest string's; a finger may stand a column beside its number.
    private IReadOnlyList<RightFinger> FingersOf(List<TabNumber> plucked, TabWords own)
    {
        if (plucked.Count == 0)
            return [];
        var columns = plucked.Select(number => number.Column).Distinct().ToList();
        var exact = own.Fingers.Where(one => columns.Contains(one.Column)).ToList();
        if (exact.Count == 0)
            exact =
            [
                .. own
                    .Fingers.Where(one => columns.Exists(column => Math.Abs(column - one.Column) == 1))
                    .Take(plucked.Count),
            ];
        if (exact.Count == plucked.Count)
            return [.. exact.Select(one => one.Finger).Reverse()];
        if (own.Fingers.Count > 0)
            log.NoteOnce(
                page.Systems[bars[plucked[0].Bar].System].Strings[0].Number,
                plucked[0].Column + 1,
                "some notes have no finger below them; the usual ones are taken"
            );
        return UsualFingers.For([.. plucked.Select(number => number.String)], before);
    }

    // A note lasts to the next one of the break, within its bar.
    private static ImmutableArray<Stroke> Lengths(List<Stroke> strokes, Fraction end)
    {
        var times = strokes.Select(stroke => stroke.At).Append(end).Distinct().Order().ToList();
        return
        [
            .. strokes.Select(stroke => stroke with { Length = times[times.BinarySearch(stroke.At) + 1] - stroke.At }),
        ];
    }

    private TabClock Clock(TabBar bar, int index)
    {
        var signs = words[bar.System]
            .Counts.Where(sign => IsIn(bar, sign.Column))
            .OrderBy(sign => sign.Column)
            .ToList();
        var counted = TabWords.Counted(signs, time);
        if (counted.Count > 1)
            return TabClock.Counted(bar, counted, lead, time);
        if (counted.Count == 1 && bar.Width * 2 <= usualWidth)
            return TabClock.CountedOnce(bar, counted[0], lead, time);
        List<int> columns = [.. numbers[index].Select(number => number.Column).Distinct()];
        return TabClock.Spaced(bar, columns, lead, SpacedLength(bar, index), time);
    }

    // A bar that is clearly narrower than most, at the start or at a repeat, is a pickup or what completes it.
    private Fraction SpacedLength(TabBar bar, int index)
    {
        if (bar.Width * 5 > usualWidth * 4 || bars.Count == 1)
            return time.Bar;
        var isEdge =
            index == 0
            || index == bars.Count - 1
            || bar.Marks is { RepeatStart: true } or { RepeatEnd: > 1 } or { SectionEnd: true }
            || bars[index - 1].Marks.RepeatEnd > 1
            || bars[index - 1].Marks.SectionEnd;
        if (!isEdge)
            return time.Bar;
        var steps = (long)Math.Round(bar.Width * (time.Bar / time.Step).ToDouble() / usualWidth);
        return time.Step * Math.Max(1, steps);
    }

    private BarMarks Marks(TabBar bar, int index, TabWords own) =>
        bar.Marks with
        {
            Part = own.Parts.Where(part => IsFor(bar, index, part.Column)).Select(part => part.Part).FirstOrDefault(),
            EndingStart = own
                .Endings.Where(ending => IsFor(bar, index, ending.Column))
                .Select(ending => ending.Passes)
                .FirstOrDefault([]),
            RepeatEnd =
                bar.Marks.RepeatEnd > 1
                    ? own.Times.Where(times => IsIn(bar, times.Column)).Select(times => times.Times).FirstOrDefault(2)
                    : 0,
        };

    // An ending goes on to a repeat, a double line, the next ending, or the last bar.
    private static ImmutableArray<BreakBar> WithEndings(List<BreakBar> read)
    {
        var isIn = false;
        for (var i = 0; i < read.Count; i++)
        {
            var marks = read[i].Marks;
            isIn |= !marks.EndingStart.IsEmpty;
            var stops =
                isIn
                && (
                    marks.RepeatEnd > 1
                    || marks.SectionEnd
                    || i + 1 == read.Count
                    || !read[i + 1].Marks.EndingStart.IsEmpty
                    || read[i + 1].Marks.RepeatStart
                );
            if (!stops)
                continue;
            read[i] = read[i] with { Marks = marks with { EndingStop = true } };
            isIn = false;
        }
        return [.. read];
    }

    private static bool IsIn(TabBar bar, int column) => column >= bar.Start && column <= bar.End;

    // A word in front of the first bar of a line belongs to it; one at a bar line to the bar behind it.
    private bool IsFor(TabBar bar, int index, int column)
    {
        var isFirst = index == 0 || bars[index - 1].System != bar.System;
        var isLast = index + 1 == bars.Count || bars[index + 1].System != bar.System;
        return (isFirst || column >= bar.Start - 2) && (isLast || column < bars[index + 1].Start - 2);
    }

    // Columns from the left of a bar to its first step: what most bars that begin with a number have.
    private int Lead()
    {
        var leads = bars.Select(
                (_, i) => numbers[i].Select(number => number.Column - bars[i].Start).DefaultIfEmpty(-1).Min()
            )
            .Where(columns => columns >= 0)
            .ToList();
        var counts = bars.Select(
                (bar, i) =>
                    words[bar.System]
                        .Counts.Where(sign => IsIn(bar, sign.Column))
                        .Select(sign => sign.Column - bars[i].Start)
                        .DefaultIfEmpty(-1)
                        .Min()
            )
            .Where(columns => columns >= 0);
        return leads.Concat(counts).DefaultIfEmpty(0).Min();
    }

    // The highest number of the count says how many beats there are; without a count, four quarters.
    private TimeSignature GuessTime()
    {
        var signs = words.SelectMany(one => one.Counts).Select(sign => sign.Sign).ToList();
        var most = signs
            .Where(sign => char.IsAsciiDigit(sign[0]))
            .Select(sign => sign[0] - '0')
            .DefaultIfEmpty(4)
            .Max();
        var guess =
            most == 2 && signs.Contains("a") ? TimeSignature.Cut
            : most is 2 or 3 ? new(most, 4)
            : most is 6 or 9 ? new(most, 8)
            : TimeSignature.Common;
        log.NoteOnce(
            Line,
            1,
            $"the page does not say its metre; {guess} is taken{(signs.Count > 0 ? " from the count" : "")}"
        );
        return guess;
    }
}
