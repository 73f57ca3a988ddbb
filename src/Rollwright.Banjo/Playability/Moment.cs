using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Playability;

/// <summary>What happens at one time of the break as played.</summary>
/// <param name="At">Whole notes from the start.</param>
/// <param name="Step">Whole notes: the step of the bar's metre.</param>
/// <param name="Strokes">One or more, all at this time.</param>
public sealed record Moment(Fraction At, Fraction Step, ImmutableArray<PlayedStroke> Strokes)
{
    public IEnumerable<Stroke> Plucked => Strokes.Select(played => played.Stroke).Where(stroke => stroke.Slur is null);

    /// <summary>Fretted notes, those of the short string too; an open string asks nothing of the left hand.</summary>
    public IEnumerable<Stroke> Fretted => Strokes.Select(played => played.Stroke).Where(stroke => stroke.Fret > 0);

    /// <summary>The break as played, its simultaneous strokes together.</summary>
    public static ImmutableArray<Moment> Of(Break played) =>
        [
            .. played
                .Played()
                .GroupBy(stroke => stroke.At)
                .OrderBy(group => group.Key)
                .Select(group => new Moment(group.Key, played.Bars[group.First().Bar].Time.Step, [.. group])),
        ];

    public Finding Fault(string rule, string words, Stroke? at = null)
    {
        var place = at is null ? Strokes[0] : Strokes.First(played => ReferenceEquals(played.Stroke, at));
        return new(rule, place.Bar, place.Stroke.At, place.Index, words);
    }
}
