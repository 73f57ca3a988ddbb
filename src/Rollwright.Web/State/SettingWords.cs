using Rollwright.Banjo.Breaks;

namespace Rollwright.Web.State;

/// <summary>A setting said in one line.</summary>
public static class SettingWords
{
    /// <summary>"Sounds in A major: open G tuning (g D G B D), capo 2, played out of G".</summary>
    public static string Of(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var setting = played.Setting;
        var capo = setting.Capo == 0 ? "no capo" : $"capo {setting.Capo}";
        return $"Sounds in {setting.SoundingKey}: {setting.Tuning.Name} tuning ({setting.Tuning.Spelling}), {capo}, "
            + $"played out of {setting.Position.Tonic}";
    }
}
