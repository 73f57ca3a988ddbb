using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Lessons.Captions;

/// <summary>A bar as it is played.</summary>
/// <param name="Bar">Index of the written bar.</param>
/// <param name="From">Seconds from the start of the video or the sound.</param>
/// <param name="To">Seconds; after <paramref name="From"/>.</param>
public readonly record struct BarTime(int Bar, double From, double To);

/// <summary>Where each played bar falls: at a tempo, or as someone really played.</summary>
/// <param name="Bars">In order of play, repeats taken.</param>
public sealed record BarTimes(ImmutableArray<BarTime> Bars)
{
    /// <summary>At a steady tempo, from the first bar on. Bars stay as long as written where steps within them are swung.</summary>
    /// <param name="played">The break.</param>
    /// <param name="tempo">The break's own for null.</param>
    /// <exception cref="LessonException">The tempo is not more than 0 and at most 1000 a minute.</exception>
    public static BarTimes At(Break played, Tempo? tempo = null)
    {
        ArgumentNullException.ThrowIfNull(played);
        var asked = tempo ?? played.Tempo;
        if (asked.PerMinute is not (> 0 and <= 1000))
            throw new LessonException($"a tempo is more than 0 and at most 1000 a minute, not {asked.PerMinute}");
        var whole = asked.SecondsPerWhole;
        var at = Fraction.Zero;
        var bars = ImmutableArray.CreateBuilder<BarTime>();
        foreach (var bar in played.Order)
        {
            var after = at + played.Bars[bar].Length;
            bars.Add(new(bar, at.ToDouble() * whole, after.ToDouble() * whole));
            at = after;
        }
        return new(bars.ToImmutable());
    }
}
