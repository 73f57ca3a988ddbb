using System.Collections.Immutable;

namespace Rollwright.Arranging.Advice;

/// <summary>
/// In which octave the melody lies, as people say and ask for it. The fiddle's pitch is the tune's own, as written; where
/// another key sounds, it is the nearest octave to it.
/// </summary>
public static class OctaveWords
{
    /// <summary>Octaves that may be asked for, from the lowest: those in which a fiddle tune can lie on a banjo at all.</summary>
    public static ImmutableArray<(int Octave, string Name)> All { get; } =
    [(-2, "two-below"), (-1, "below"), (0, "fiddle"), (1, "above")];

    /// <summary>"at the fiddle's pitch", "an octave below the fiddle", "2 octaves above the fiddle".</summary>
    public static string Of(int octave) =>
        octave switch
        {
            0 => "at the fiddle's pitch",
            -1 => "an octave below the fiddle",
            1 => "an octave above the fiddle",
            < 0 => $"{-octave} octaves below the fiddle",
            _ => $"{octave} octaves above the fiddle",
        };

    /// <summary>The same where there is little room and the fiddle need not be said: "octave below".</summary>
    public static string Short(int octave) =>
        octave switch
        {
            0 => "fiddle's pitch",
            -1 => "octave below",
            1 => "octave above",
            < 0 => $"{-octave} octaves below",
            _ => $"{octave} octaves above",
        };

    /// <summary>The octave of a name of <see cref="All"/>; null where there is none.</summary>
    public static int? Find(string name)
    {
        foreach (var (octave, known) in All)
        {
            if (known == name)
                return octave;
        }
        return null;
    }
}
