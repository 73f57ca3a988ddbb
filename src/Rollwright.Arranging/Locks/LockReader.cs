using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Forms;

namespace Rollwright.Arranging.Locks;

/// <summary>
/// Reads locks as people type them: a place, then what is asked there. Places, counted as <see cref="BarNumbering"/> has
/// it: "3" (bar 3), "3/2" (its second beat), "3/2.5", "5-8", "5/1-6/2", "0/4" (a pickup's fourth beat), "8b" where there
/// are two of a number. What: "note 3.2T" (string.fret, finger if wanted), "rest", "slur", "pinch", "T" (thumb plucks; I, M), "no-slur", "frets 5", "way melodic" (in mixed style),
/// "shape 2-0-1-2" (strings 4-3-2-1, x where it does not matter), "lick NAME", "keep".
/// </summary>
public static partial class LockReader
{
    /// <summary>Places are said with two decimals.</summary>
    private const double Rounded = 0.02;

    /// <exception cref="ArrangeException">The text is no lock, or its place is not in the tune; the message says what to write.</exception>
    public static ImmutableArray<Lock> Read(string text, Arrangement made)
    {
        var parts = text.Trim().Split([' ', '\t'], 3, StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length < 2)
            throw Wrong(text, "write a place and what is asked there, such as '3/2 note 3.2T' or '5-8 no-slur'");
        var (first, last) = Place(text, parts[0], made.Grid);
        var rest = parts.Length > 2 ? parts[2] : "";
        return parts[1] switch
        {
            "note" => [Note(text, first, rest)],
            "rest" => [new RestLock(first)],
            "slur" => [new SlurLock(first)],
            "pinch" => [new PinchLock(first)],
            "T" or "I" or "M" => [new FingerLock(first, Enum.Parse<RightFinger>(parts[1]))],
            "no-slur" => [new NoSlurLock(first, last)],
            "frets" when int.TryParse(rest, out var fret) && fret >= 0 => [new FretLock(first, last, fret)],
            "way" => [Way(text, first, last, rest, made)],
            "shape" => [new ShapeLock(first, last, Frets(text, rest))],
            "lick" => [Lick(text, first, rest, made)],
            "keep" =>
            [
                .. Enumerable.Range(first, last - first + 1).Select(step => new SoundLock(step, made.PathAt(step))),
            ],
            _ => throw Wrong(
                text,
                "what is asked is one of note, rest, slur, pinch, T, I, M, no-slur, frets N, way, shape, lick, keep"
            ),
        };
    }

    private static NoteLock Note(string text, int step, string note)
    {
        var match = NoteForm().Match(note);
        if (!match.Success)
            throw Wrong(text, "a note is string.fret and, if wanted, the finger: 3.2T, 5.0");
        var (on, fret) = (
            int.Parse(match.Groups["string"].ValueSpan, CultureInfo.InvariantCulture),
            int.Parse(match.Groups["fret"].ValueSpan, CultureInfo.InvariantCulture)
        );
        if (!Neck.HasFret(on, fret))
            throw Wrong(text, $"string {on} has no fret {fret}");
        RightFinger? finger = match.Groups["finger"].Success
            ? Enum.Parse<RightFinger>(match.Groups["finger"].Value)
            : null;
        return new(step, on, fret, finger);
    }

    private static WayLock Way(string text, int first, int last, string name, Arrangement made)
    {
        var manners = made.Style.Manners;
        if (manners.Length == 1)
            throw Wrong(
                text,
                $"the {made.Style.Name} style has one way of playing; take the mixed style to choose by phrases"
            );
        var index = manners.ToList().FindIndex(manner => manner.Name == name);
        return index >= 0
            ? new(first, last, index, name)
            : throw Wrong(text, $"a way is one of {string.Join(", ", manners.Select(manner => manner.Name))}");
    }

    private static ImmutableArray<int?> Frets(string text, string shape)
    {
        var frets = shape.Split('-');
        if (
            frets.Length != 4
            || frets.Any(fret =>
                fret != "x" && !(int.TryParse(fret, out var number) && number is >= 0 and <= Neck.LastFret)
            )
        )
            throw Wrong(text, "a shape is the frets of strings 4-3-2-1: 2-0-1-2, x where it does not matter");
        return [.. frets.Select(fret => fret == "x" ? (int?)null : int.Parse(fret, CultureInfo.InvariantCulture))];
    }

    private static LickLock Lick(string text, int step, string name, Arrangement made)
    {
        var here = made.LicksAt(step);
        var found = here.FirstOrDefault(place =>
            string.Equals(place.Lick.Name, name.Trim('\'', '"'), StringComparison.OrdinalIgnoreCase)
        );
        return found is not null
            ? new(found)
            : throw Wrong(
                text,
                here.IsEmpty
                    ? "no lick fits there by chord, tuning, level and length"
                    : $"no such lick fits there; some that do: {string.Join(", ", here.Take(4).Select(place => $"'{place.Lick.Name}'"))}"
            );
    }

    private static (int First, int Last) Place(string text, string place, StepGrid grid)
    {
        var match = PlaceForm().Match(place);
        if (!match.Success)
            throw Wrong(text, "a place is a bar, bar/beat or a span of them: 3, 3/2, 5-8, 5/1-6/2.5");
        var (first, firstEnd) = One(text, match.Groups["bar"].Value, match.Groups["beat"].Value, grid);
        if (!match.Groups["bar2"].Success)
            return (first, firstEnd);
        var (second, last) = One(text, match.Groups["bar2"].Value, match.Groups["beat2"].Value, grid);
        return second >= first ? (first, last) : throw Wrong(text, "the span ends before it begins");
    }

    // A bar's steps, or the one step at a beat.
    private static (int First, int Last) One(string text, string bar, string beat, StepGrid grid)
    {
        if (grid.StepsOf(bar) is not { } steps)
            throw Wrong(
                text,
                $"there is no bar {bar}; the tune's bars are {grid.Numbering.First} to {grid.Numbering.Last}"
            );
        if (beat.Length == 0)
            return steps;
        var asked = double.Parse(beat, CultureInfo.InvariantCulture);
        foreach (var index in grid.Numbering.Named(bar))
        {
            for (var step = grid.FirstOf(index); step < grid.Bars[index].End.Value; step++)
            {
                var off = grid.Numbering.Beat(index, grid.Steps[step].At) - asked;
                if (Math.Abs(off) < Rounded)
                    return (step, step);
            }
        }
        throw Wrong(text, $"bar {bar} has no step at beat {beat}");
    }

    private static ArrangeException Wrong(string text, string remedy) => new($"lock '{text}': {remedy}");

    [GeneratedRegex(@"^(?<string>[1-5])\.(?<fret>\d{1,2})(?<finger>[TIM])?$", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex NoteForm();

    [GeneratedRegex(
        @"^(?<bar>\d{1,4}[b-z]{0,3})(/(?<beat>\d{1,3}(\.\d+)?))?(-(?<bar2>\d{1,4}[b-z]{0,3})(/(?<beat2>\d{1,3}(\.\d+)?))?)?$",
        RegexOptions.ExplicitCapture,
        1000
    )]
    private static partial Regex PlaceForm();
}
