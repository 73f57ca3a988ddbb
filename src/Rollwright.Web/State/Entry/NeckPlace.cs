using Rollwright.Banjo.Tunings;

namespace Rollwright.Web.State.Entry;

/// <summary>A place on the drawn neck where a finger may tap.</summary>
/// <param name="String">1 to 5.</param>
/// <param name="Fret">0 open; on the short string the neck's fret.</param>
public readonly record struct NeckPlace(int String, int Fret)
{
    /// <summary>The last fret that is drawn: the octave of the open strings, where melodies seldom go beyond.</summary>
    public const int LastFret = 12;

    // The notation of the banjo is written an octave above its sound, and so are the fiddle's tunes (common practice, no source).
    private const int Octave = 12;

    /// <summary>The fret of the neck above which it lies: the open short string begins at the fifth.</summary>
    public int Column => String == Neck.ShortString && Fret == 0 ? Neck.ShortStringStart : Fret;

    /// <summary>The MIDI key as the tune writes it.</summary>
    public int KeyIn(Tuning tuning)
    {
        ArgumentNullException.ThrowIfNull(tuning);
        return tuning.KeyOf(String, Fret) + Octave;
    }

    /// <summary>The place at a column of a string; where the string has none, the nearest that it has.</summary>
    public static NeckPlace At(int banjoString, int column)
    {
        var on = Math.Clamp(banjoString, 1, Neck.Strings);
        var fret = Math.Clamp(column, 0, LastFret);
        if (on == Neck.ShortString)
            fret = fret <= Neck.ShortStringStart ? 0 : fret;
        return new(on, fret);
    }

    /// <summary>So many strings down and frets up the neck.</summary>
    public NeckPlace Moved(int strings, int frets) => At(String + strings, Column + frets);
}
