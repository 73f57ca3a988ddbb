using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;

namespace Rollwright.Web.Words;

/// <summary>Settings in words.</summary>
public static class SettingWords
{
    /// <summary>"Sounds in A major: open G tuning (g D G B D), capo 2, played out of G".</summary>
    public static string Of(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var setting = played.Setting;
        return $"Sounds in {setting.SoundingKey}: {setting.Tuning.Name} tuning ({setting.Tuning.Spelling}), "
            + $"{Capo(setting.Capo)}, played out of {setting.Position.Tonic}";
    }

    /// <summary>"G position, open G, capo 2, an octave below the fiddle".</summary>
    public static string Of(Setting setting)
    {
        ArgumentNullException.ThrowIfNull(setting);
        return $"{setting.Position.Tonic} position, {setting.Tuning.Name}, {Capo(setting.Capo)}, {Octave(setting.Shift)}";
    }

    private static string Capo(int fret) => fret == 0 ? "no capo" : $"capo {fret}";

    // The fiddle's pitch is the tune's own; the nearest whole octave says what the banjo does with it.
    private static string Octave(int shift) =>
        (int)Math.Round(shift / 12.0) switch
        {
            0 => "at the fiddle's pitch",
            -1 => "an octave below the fiddle",
            < 0 and var octaves => $"{-octaves} octaves below the fiddle",
            1 => "an octave above the fiddle",
            var octaves => $"{octaves} octaves above the fiddle",
        };
}
