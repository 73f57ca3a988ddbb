using System.Globalization;
using Rollwright.Arranging.Wishes;
using Rollwright.Music.Metre;

namespace Rollwright.Web.Words;

/// <summary>Places of the tune in words, counted as on paper, and as they are also typed.</summary>
public static class PlaceWords
{
    /// <summary>"bar 3, beat 2.5".</summary>
    public static string Of(StepGrid grid, int step)
    {
        ArgumentNullException.ThrowIfNull(grid);
        return grid.Place(step);
    }

    /// <summary>"bar 3, beat 1", "bar 3" for all of its steps, "bar 3, beat 1 to bar 4, beat 2".</summary>
    public static string Of(StepGrid grid, int first, int last)
    {
        ArgumentNullException.ThrowIfNull(grid);
        if (first == last)
            return Of(grid, first);
        var (firstBar, lastBar) = (grid.Steps[first].Bar, grid.Steps[last].Bar);
        var (from, to) = (grid.Numbering[firstBar].Name, grid.Numbering[lastBar].Name);
        var isWhole = first == grid.StepsOf(from)?.First && last == grid.StepsOf(to)?.Last;
        return (isWhole, from == to) switch
        {
            (true, true) => $"bar {from}",
            (true, false) => $"bars {from}–{to}",
            (_, true) => $"{Of(grid, first)} to {Beat(grid, lastBar, grid.Steps[last].At)}",
            _ => $"{Of(grid, first)} to {Of(grid, last)}",
        };
    }

    /// <summary>"2.5".</summary>
    public static string Beat(StepGrid grid, int bar, Fraction at)
    {
        ArgumentNullException.ThrowIfNull(grid);
        return grid.Numbering.Beat(bar, at).ToString("0.##", CultureInfo.InvariantCulture);
    }

    /// <summary>The same with a capital, to begin a heading with.</summary>
    public static string Capital(string words) =>
        words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];
}
