using Rollwright.Arranging.Styles;

namespace Rollwright.Web.Words;

/// <summary>Levels in the words of their own bounds.</summary>
public static class LevelWords
{
    /// <summary>"3: frets to 12, 4 fingers, slurs".</summary>
    public static string Of(int level)
    {
        var bounds = LevelTable.Of(level).Bounds;
        var fingers = bounds.FingersDown == 1 ? "1 finger" : $"{bounds.FingersDown} fingers";
        return $"{level}: frets to {bounds.HighestFret}, {fingers}, {(bounds.Slurs ? "slurs" : "no slurs")}";
    }
}
