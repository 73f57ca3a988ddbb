using Rollwright.Banjo.Settings;

namespace Rollwright.Cli.Asking;

/// <summary>A setting in words.</summary>
internal static class SettingWords
{
    /// <summary>"G position, open G, capo 2, sounds in A".</summary>
    public static string Of(Setting setting)
    {
        var capo = setting.Capo == 0 ? "no capo" : $"capo {setting.Capo}, sounds in {setting.SoundingKey}";
        return $"{setting.Position.Tonic} position, {setting.Tuning.Name}, {capo}";
    }
}
