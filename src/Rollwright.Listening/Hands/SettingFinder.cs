using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Takes;
using Rollwright.Music.Keys;

namespace Rollwright.Listening.Hands;

/// <summary>
/// Which tuning and capo may have been played in: those whose open strings are heard most, for a three-finger roll lives on
/// open strings (common practice, no source).
/// </summary>
internal static class SettingFinder
{
    private const int HighestCapo = 7;

    /// <summary>Settings that come into question, the likeliest first.</summary>
    /// <param name="moments">What was heard.</param>
    /// <param name="key">The key that sounds.</param>
    /// <param name="tuning">Where it is known.</param>
    /// <param name="capo">Where it is known.</param>
    public static List<Setting> Likely(IReadOnlyList<Moment> moments, Key key, Tuning? tuning, int? capo)
    {
        var keys = moments.SelectMany(moment => moment.Keys).ToArray();
        var tunings = tuning is null ? TuningTable.All : [tuning];
        var capos = capo is { } given ? [given] : Enumerable.Range(0, HighestCapo + 1);
        return
        [
            .. tunings
                .SelectMany(one => capos.Select(fret => new Setting(one, fret, key.Transpose(-fret), 0)))
                .OrderBy(setting => keys.Average(heard => Farness(setting, heard)) + Droneless(moments, setting))
                .Take((int)ListeningTable.Of("settings")),
        ];
    }

    /// <summary>
    /// How much the short string is missing, 0 to 1: it is the drone of a roll, and rolls hardly do without
    /// (common practice, no source).
    /// </summary>
    public static double Droneless(IReadOnlyCollection<Moment> moments, Setting setting)
    {
        var drone = setting.SoundingKeyOf(Neck.ShortString, 0);
        var share = (double)moments.Count(moment => moment.Keys.Contains(drone)) / moments.Count;
        return Math.Max(0, 1 - (share / ListeningTable.Of("drone-share")));
    }

    // Frets from the nearest open string; a note that lies nowhere is as far as the neck is long.
    private static double Farness(Setting setting, int key)
    {
        var open = key - setting.Capo;
        if (setting.Tuning.OpenOf(Neck.ShortString) == open)
            return 0;
        var least = (double)Neck.LastFret;
        for (var s = 1; s < Neck.ShortString; s++)
            if (open - setting.Tuning.OpenOf(s) is var fret and >= 0)
                least = Math.Min(least, fret == 0 ? 0 : 1 + (0.2 * fret));
        return least;
    }
}
