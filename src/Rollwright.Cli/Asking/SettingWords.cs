using Rollwright.Arranging.Advice;
using Rollwright.Banjo.Settings;

namespace Rollwright.Cli.Asking;

/// <summary>A setting in words.</summary>
internal static class SettingWords
{
    /// <summary>"G position, open G, capo 2, sounds in A, an octave below the fiddle": for what fiddlers play.</summary>
    public static string OfTune(Setting setting) => $"{Of(setting)}, {OctaveWords.Of(setting.Octave)}";

    /// <summary>"G position, open G, capo 2, sounds in A".</summary>
    public static string Of(Setting setting)
    {
        var capo = setting.Capo == 0 ? "no capo" : $"capo {setting.Capo}, sounds in {setting.SoundingKey}";
        return $"{setting.Position.Tonic} position, {setting.Tuning.Name}, {capo}";
    }
}
