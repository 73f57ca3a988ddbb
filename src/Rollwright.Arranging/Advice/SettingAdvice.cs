using System.Collections.Immutable;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Keys;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Advice;

/// <summary>
/// Which settings suit a tune, by a quick look at its notes. The lattice then decides between the best of them.
/// </summary>
public static class SettingAdvice
{
    /// <summary>Settings for a tune, most promising first.</summary>
    /// <remarks>Empty where less than half of the tune lies on the neck in every setting that the options leave.</remarks>
    public static ImmutableArray<SettingOffer> For(Tune tune, ArrangeOptions options, Style style)
    {
        var look = new SettingLook(tune, style, options.Level);
        // A key that is asked for moves the tune; its mode is its own.
        var sounding = options.SoundingKey is { } key ? key with { Mode = tune.Key.Mode } : tune.Key;
        var offers = ImmutableArray.CreateBuilder<SettingOffer>();
        foreach (var (place, capo, price) in Ways(sounding, options))
        {
            var position = new Key(place.Tonic, tune.Key.Mode);
            var up = (((place.Tonic.PitchClass + capo - tune.Key.Tonic.PitchClass) % 12) + 12) % 12;
            for (var octave = -3; octave <= 1; octave++)
            {
                var setting = new Setting(place.Tuning, capo, position, up + (12 * octave));
                if (options.Octave is { } asked && asked != setting.Octave)
                    continue;
                if (look.Of(setting, price * tune.Bars.Length) is { Reach: > 0.5 } offer)
                    offers.Add(offer);
            }
        }
        return [.. offers.OrderBy(offer => offer.Ease)];
    }

    private static IEnumerable<(SettingTable.Place Place, int Capo, int Price)> Ways(
        Key sounding,
        ArrangeOptions options
    )
    {
        var places = SettingTable.Places.Where(place => place.Modes.Contains(sounding.Mode)).ToArray();
        // A tuning that is asked for is taken for any position it has, or as if open in the key where the table has none.
        if (options.Tuning is { } wanted)
        {
            places = [.. SettingTable.Places.Where(place => place.Tuning == wanted)];
            if (places.Length == 0)
                places = [new(wanted, sounding.Tonic, [sounding.Mode], 0)];
        }
        foreach (var place in places)
        {
            var capo = (((sounding.Tonic.PitchClass - place.Tonic.PitchClass) % 12) + 12) % 12;
            if (options.Capo is { } asked && asked != capo)
                continue;
            if (SettingTable.Capos.TryGetValue(capo, out var price))
                yield return (place, capo, place.Price + price);
        }
        // With a capo that leaves no position of the table, the hands take the key as it comes in open G.
        if (
            options.Capo is { } fret
            && !places.Any(place => (place.Tonic.PitchClass + fret) % 12 == sounding.Tonic.PitchClass)
        )
            yield return (
                new(options.Tuning ?? TuningTable.OpenG, sounding.Transpose(-fret).Tonic, [sounding.Mode], 0),
                fret,
                0
            );
    }
}
