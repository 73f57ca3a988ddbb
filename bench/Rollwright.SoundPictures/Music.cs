using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Rolls;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.SoundPictures;

/// <summary>What is looked at: a forward roll on the open strings, and single notes.</summary>
internal static class Music
{
    private static readonly Setting OpenG = new(TuningTable.OpenG, 0, new Key(new PitchName(Letter.G)), -12);

    /// <summary>Bars of the roll in 2/2, all open; the first note of each half bar is the tune's.</summary>
    public static Break Roll(int bars, double halvesAMinute)
    {
        var roll = RollTable.All.First(item => item.Name == "forward");
        var bar = new BreakBar
        {
            Length = TimeSignature.Cut.Bar,
            Time = TimeSignature.Cut,
            Strokes =
            [
                .. roll.Strings.Select(
                    (banjoString, step) =>
                        Stroke(new(step, 8), new(1, 8), banjoString, 0, roll.FingerAt(step), step % 4 == 0)
                ),
            ],
        };
        return Of(new(new Fraction(1, 2), halvesAMinute), [.. Enumerable.Repeat(bar, bars)]);
    }

    /// <summary>One note that rings for so many seconds.</summary>
    public static Break Note(int banjoString, int fret, int seconds) =>
        Of(
            new(new Fraction(1, 4), 60),
            [
                new BreakBar
                {
                    Length = new(seconds, 4),
                    Time = TimeSignature.Common,
                    Strokes = [Stroke(Fraction.Zero, new(1, 4), banjoString, fret, RightFinger.M, true)],
                },
            ]
        );

    private static Break Of(Tempo tempo, BreakBar[] bars) =>
        new()
        {
            Title = "Looked at",
            Setting = OpenG,
            Time = bars[0].Time,
            Tempo = tempo,
            Bars = [.. bars],
        };

    private static Stroke Stroke(
        Fraction at,
        Fraction length,
        int banjoString,
        int fret,
        RightFinger right,
        bool isMelody
    ) =>
        new()
        {
            At = at,
            Length = length,
            String = banjoString,
            Fret = fret,
            Right = right,
            Left = fret == 0 ? null : 1,
            IsMelody = isMelody,
        };
}
