using System.Collections.Immutable;
using Rollwright.Listening.Hands;
using Rollwright.Listening.Takes;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Listening.Rhythm;

/// <summary>The moments of a take in bars, as a tune whose notes are the likeliest ones.</summary>
/// <param name="Tune">At the pitch that sounds; a first bar that is not full is a pickup.</param>
/// <param name="Moments">Where each moment stands.</param>
internal sealed record Layout(Tune Tune, ImmutableArray<LaidMoment> Moments)
{
    /// <param name="moments">By time; at least one.</param>
    /// <param name="at">Half steps of each from the first, ascending.</param>
    /// <param name="before">Half steps of the first bar that have gone by before the first moment.</param>
    /// <param name="time">The metre.</param>
    /// <param name="key">The key, for the spelling.</param>
    /// <param name="title">What it is called.</param>
    public static Layout Of(
        IReadOnlyList<Moment> moments,
        IReadOnlyList<int> at,
        int before,
        TimeSignature time,
        Key key,
        string title
    )
    {
        var half = time.Step * new Fraction(1, 2);
        var whole = HalvesOf(time);
        var laid = moments
            .Select(
                (moment, i) =>
                {
                    var place = at[i] + before;
                    // In a pickup, places are counted from its own beginning.
                    var (bar, within) = (place / whole, place % whole);
                    return new LaidMoment(moment, bar, half * (bar == 0 ? within - before : within));
                }
            )
            .ToImmutableArray();
        var bars = ImmutableArray.CreateBuilder<TuneBar>();
        foreach (var number in Enumerable.Range(0, laid[^1].Bar + 1))
        {
            var length = number == 0 ? half * (whole - before) : time.Bar;
            var inside = laid.Where(moment => moment.Bar == number).ToList();
            bars.Add(
                new()
                {
                    Length = length,
                    Time = time,
                    Key = key,
                    Notes =
                    [
                        .. inside.SelectMany(
                            (moment, i) =>
                                moment.Moment.Keys.Select(pitch => new Note(
                                    moment.At,
                                    (i + 1 < inside.Count ? inside[i + 1].At : length) - moment.At,
                                    Pitch.FromMidi(pitch, key.Spell(pitch % 12))
                                ))
                        ),
                    ],
                }
            );
        }
        var tune = new Tune
        {
            Title = title,
            Key = key,
            Time = time,
            Bars = bars.ToImmutable(),
        };
        return new(tune, laid);
    }

    /// <summary>The same in parts of some bars, each with its first bar: what is solved at once has to end somewhere.</summary>
    public IEnumerable<(int First, Layout Part)> Parts(int bars)
    {
        for (var first = 0; first < Tune.Bars.Length; first += bars)
        {
            var (from, until) = (first, Math.Min(Tune.Bars.Length, first + bars));
            yield return (
                first,
                new(
                    Tune with
                    {
                        Bars = Tune.Bars[from..until],
                    },
                    [
                        .. Moments
                            .Where(laid => laid.Bar >= from && laid.Bar < until)
                            .Select(laid => laid with { Bar = laid.Bar - from }),
                    ]
                )
            );
        }
    }

    /// <summary>Half steps in a bar.</summary>
    public static int HalvesOf(TimeSignature time) => (int)(time.Bar / time.Step * 2).ToDouble();
}
