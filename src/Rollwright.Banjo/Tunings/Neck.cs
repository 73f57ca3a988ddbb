namespace Rollwright.Banjo.Tunings;

/// <summary>The geometry of the neck: frets on the long strings, the short string, distances in millimetres.</summary>
public static class Neck
{
    /// <summary>Strings are numbered 1 (nearest the floor) to 5 (the short one).</summary>
    public const int Strings = 5;

    public const int ShortString = 5;

    /// <summary>The highest fret of a common neck (common practice, no source).</summary>
    public const int LastFret = 22;

    /// <summary>The short string starts at this fret of the neck: its first fretted note is one higher.</summary>
    public const int ShortStringStart = 5;

    /// <summary>26¼ inches, a common scale length (an instrument maker's page).</summary>
    public const double ScaleLength = 666.75;

    /// <summary>Distance of a fret from the nut in mm: L(1 − 2^(−n/12)) (geometry of equal temperament).</summary>
    public static double Place(int fret) => (uint)fret <= LastFret ? Places[fret] : Reckon(fret);

    private static readonly double[] Places = [.. Enumerable.Range(0, LastFret + 1).Select(Reckon)];

    private static double Reckon(int fret) => ScaleLength * (1 - Math.Pow(2, -fret / 12.0));

    /// <summary>Whether the string has this fret: 0 is open; the short string has none from 1 to 5.</summary>
    public static bool HasFret(int banjoString, int fret) =>
        fret == 0 || (fret <= LastFret && fret >= (banjoString == ShortString ? ShortStringStart + 1 : 1));

    /// <summary>Semitones that a fret raises the open string: on the short string the neck's fret less five.</summary>
    public static int SemitonesAbove(int banjoString, int fret) =>
        banjoString == ShortString && fret > 0 ? fret - ShortStringStart : fret;
}
