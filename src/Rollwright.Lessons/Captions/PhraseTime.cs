using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;

namespace Rollwright.Lessons.Captions;

/// <summary>A phrase as it is played, repeats taken.</summary>
/// <param name="Phrase">The phrase.</param>
/// <param name="Part">Name of its part.</param>
/// <param name="Pass">On which pass of its part, from 1.</param>
/// <param name="Bars">Those of its bars that are played.</param>
public sealed record PhraseTime(Phrase Phrase, string Part, int Pass, ImmutableArray<BarTime> Bars)
{
    /// <summary>Seconds.</summary>
    public double From => Bars[0].From;

    /// <summary>Seconds.</summary>
    public double To => Bars[^1].To;

    /// <summary>In order of play without a hole.</summary>
    public static ImmutableArray<PhraseTime> Of(Break played, BarTimes times)
    {
        ArgumentNullException.ThrowIfNull(times);
        var ofBar = BreakForm
            .Of(played)
            .SelectMany(part => part.Phrases.SelectMany(phrase => phrase.Bars.Select(bar => (bar, part, phrase))))
            .ToDictionary(one => one.bar);
        var found = ImmutableArray.CreateBuilder<PhraseTime>();
        var passes = new Dictionary<Part, int>();
        var before = -1;
        foreach (var bar in times.Bars)
        {
            var (_, part, phrase) = ofBar[bar.Bar];
            var goesOn = found.Count > 0 && found[^1].Phrase == phrase && bar.Bar > before;
            // A part begins again where its first bar comes, or where a repeat goes back past a pickup.
            if (found.Count == 0 || found[^1].Part != part.Name || bar.Bar <= before)
                passes[part] = passes.GetValueOrDefault(part) + 1;
            if (goesOn)
                found[^1] = found[^1] with { Bars = found[^1].Bars.Add(bar) };
            else
                found.Add(new(phrase, part.Name, passes[part], [bar]));
            before = bar.Bar;
        }
        return found.ToImmutable();
    }
}
