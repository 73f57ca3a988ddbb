namespace Rollwright.Formats.Abc;

/// <summary>
/// Bounds beyond which a text is no tune that anybody plays: they keep time and memory small whatever is opened. All
/// are our own choice, far above what collections of tunes hold.
/// </summary>
public static class AbcLimits
{
    /// <summary>Bytes of a file. The largest open collections are a few megabytes.</summary>
    public const int MostBytes = 20_000_000;

    /// <summary>Written bars of one tune; what comes after is left out with a message.</summary>
    public const int MostBars = 5_000;

    /// <summary>Notes and rests of one tune; what comes after is left out with a message.</summary>
    public const int MostNotes = 50_000;

    /// <summary>Whole notes that one note, rest or bar may last.</summary>
    public const int LongestBar = 64;

    /// <summary>Bars that one rest sign (Z) may stand for.</summary>
    public const int MostRestBars = 100;

    /// <summary>Labels that an order of parts (P:) may come to when written out.</summary>
    public const int MostParts = 64;

    /// <summary>How often a section may be repeated, and the highest number of an ending.</summary>
    public const int MostPasses = 16;

    /// <summary>
    /// Times are multiples of 1/967680 of a whole note (2^10 · 3^3 · 5 · 7): all notes that ABC can write in tuplets of
    /// 2 to 9, and few enough that sums of a whole tune stay exact in 64 bits.
    /// </summary>
    public const long Grid = 967_680;
}
