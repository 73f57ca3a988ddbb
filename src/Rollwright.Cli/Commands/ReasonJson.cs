using System.Text.Json;
using Rollwright.Arranging;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Reasons;

namespace Rollwright.Cli.Commands;

/// <summary>A break's reasons, terms, spots and settings for machines. Prices are thousandths of a plain note of the tune left out.</summary>
internal static class ReasonJson
{
    public static string Of(Arrangement made) =>
        JsonSerializer.Serialize(
            new
            {
                title = made.Break.Title,
                style = made.Style.Name,
                setting = Setting(made.Break.Setting),
                kept = Math.Round(made.Kept, 4),
                cost = made.Cost,
                chordsAdded = made.ChordsAdded,
                terms = made.Terms.ToDictionary(entry => TermNames.Of(entry.Term), entry => entry.Price),
                settings = made.Settings.Select(offer => Setting(offer.Setting)),
                steps = made.Reasons.Select(reason => Step(made, reason)),
                spots = made.Spots()
                    .Select(spot => new
                    {
                        bar = made.Grid.Numbering[spot.Bar].Number,
                        written = spot.Bar,
                        at = spot.At.ToString(),
                        length = spot.Length.ToString(),
                        chord = spot.Chord?.ToString(),
                        fits = spot.Count,
                        best = spot.Best.Select(fit => new { lick = fit.Place.Lick.Name, price = fit.Price }),
                    }),
            }
        );

    private static object Setting(Banjo.Settings.Setting setting) =>
        new
        {
            tuning = setting.Tuning.Id,
            capo = setting.Capo,
            position = setting.Position.ToString(),
            sounds = setting.SoundingKey.ToString(),
            octave = setting.Octave,
            shift = setting.Shift,
        };

    private static object Step(Arrangement made, StepReason reason)
    {
        var place = made.Grid.Steps[reason.Step];
        return new
        {
            bar = made.Grid.Numbering[place.Bar].Number,
            written = place.Bar,
            beat = Math.Round(made.Grid.Numbering.Beat(place.Bar, place.At), 3),
            does = StepWords.Of(reason.Done),
            wanted = place.Onset,
            plays = place.Onset is { } key ? reason.Done.Sounds(key, made.Break.Setting.Tuning) : (bool?)null,
            lick = reason.Lick?.Lick.Name,
            cost = reason.Cost,
            terms = reason.Terms.Select(entry => new { term = TermNames.Of(entry.Term), price = entry.Price }),
            runnerUp = reason.RunnerUp is { } other
                ? new { does = StepWords.Of(other.Done), price = other.Price }
                : null,
        };
    }
}
