using Rollwright.Arranging.Advice;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;

namespace Rollwright.Web.Words;

/// <summary>Settings in words.</summary>
public static class SettingWords
{
    /// <summary>"Sounds in A major: open G tuning (g D G B D), capo 2, played out of G, an octave below the fiddle".</summary>
    public static string Of(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var setting = played.Setting;
        return $"Sounds in {setting.SoundingKey}: {setting.Tuning.Name} tuning ({setting.Tuning.Spelling}), "
            + $"{Capo(setting.Capo)}, played out of {setting.Position.Tonic}, {OctaveWords.Of(setting.Octave)}";
    }

    /// <summary>"G position, open G, capo 2, an octave below the fiddle".</summary>
    public static string Of(Setting setting)
    {
        ArgumentNullException.ThrowIfNull(setting);
        return $"{setting.Position.Tonic} position, {setting.Tuning.Name}, {Capo(setting.Capo)}, {OctaveWords.Of(setting.Octave)}";
    }

    private static string Capo(int fret) => fret == 0 ? "no capo" : $"capo {fret}";
}
