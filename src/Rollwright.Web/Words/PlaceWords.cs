using System.Globalization;
using Rollwright.Arranging.Wishes;
using Rollwright.Music.Metre;

namespace Rollwright.Web.Words;

/// <summary>Places of the tune in words, as they are also typed: bars and beats counted from 1.</summary>
public static class PlaceWords
{
    /// <summary>"bar 3, beat 2.5".</summary>
    public static string Of(StepGrid grid, int step)
    {
        ArgumentNullException.ThrowIfNull(grid);
        var place = grid.Steps[step];
        return $"bar {place.Bar + 1}, beat {Beat(grid, place.Bar, place.At)}";
    }

    /// <summary>"bar 3, beat 1", "bar 3" for all of its steps, "bar 3, beat 1 to bar 4, beat 2".</summary>
    public static string Of(StepGrid grid, int first, int last)
    {
        ArgumentNullException.ThrowIfNull(grid);
        if (first == last)
            return Of(grid, first);
        var (from, to) = (grid.Steps[first].Bar, grid.Steps[last].Bar);
        var isWhole = first == grid.FirstOf(from) && last == grid.Bars[to].End.Value - 1;
        return (isWhole, from == to) switch
        {
            (true, true) => $"bar {from + 1}",
            (true, false) => $"bars {from + 1} to {to + 1}",
            (_, true) => $"{Of(grid, first)} to {Beat(grid, to, grid.Steps[last].At)}",
            _ => $"{Of(grid, first)} to {Of(grid, last)}",
        };
    }

    /// <summary>"2.5".</summary>
    public static string Beat(StepGrid grid, int bar, Fraction at)
    {
        ArgumentNullException.ThrowIfNull(grid);
        return (1 + (at / grid.BeatOf(bar)).ToDouble()).ToString("0.##", CultureInfo.InvariantCulture);
    }

    /// <summary>The same with a capital, to begin a heading with.</summary>
    public static string Capital(string words) =>
        words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];
}
