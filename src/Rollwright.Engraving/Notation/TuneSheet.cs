using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Engraving.Labels;
using Rollwright.Music.Tunes;

namespace Rollwright.Engraving.Notation;

/// <summary>A tune alone in the shape that pages are laid out from: its bars, marks and chords, and no strokes.</summary>
internal static class TuneSheet
{
    // The staff of breaks is written an octave above the sound; a tune moved an octave down stands on it at its own pitch.
    private const int AtPitch = -12;

    public static Break Of(Tune tune) =>
        new()
        {
            Title = tune.Title,
            Composer = tune.Composer,
            Setting = new(TuningTable.OpenG, 0, tune.Key, AtPitch),
            Time = tune.Time,
            // Not shown where the tune names none.
            Tempo = tune.Tempo ?? new(new(1, 4), 120),
            Swing = tune.Swing,
            Bars =
            [
                .. tune.Bars.Select(bar => new BreakBar
                {
                    Length = bar.Length,
                    Time = bar.Time,
                    Marks = bar.Marks,
                    Chords = bar.Chords,
                }),
            ],
            Tune = tune,
        };

    public static string WordsFor(Break played) =>
        $"{played.Title}: the melody in notation, {played.Bars.Length} bars. {HeadingOf(played)}";

    public static string HeadingOf(Break played) =>
        $"Key: {PrintedNames.Of(played.Setting.Position)}."
        + (
            played.Tune!.Rhythm.Length > 0
                ? $" {char.ToUpperInvariant(played.Tune.Rhythm[0])}{played.Tune.Rhythm[1..]}."
                : ""
        );
}
