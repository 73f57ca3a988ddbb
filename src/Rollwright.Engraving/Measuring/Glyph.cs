namespace Rollwright.Engraving.Measuring;

/// <summary>A sign of the music font by its code point in SMuFL (Standard Music Font Layout 1.4).</summary>
public readonly record struct Glyph(int CodePoint)
{
    public static readonly Glyph BracketTop = new(0xE003);
    public static readonly Glyph BracketBottom = new(0xE004);
    public static readonly Glyph RepeatDot = new(0xE044);
    public static readonly Glyph TrebleClef = new(0xE050);
    public static readonly Glyph TrebleClef8Below = new(0xE052);
    public static readonly Glyph CommonTime = new(0xE08A);
    public static readonly Glyph CutTime = new(0xE08B);
    public static readonly Glyph WholeHead = new(0xE0A2);
    public static readonly Glyph HalfHead = new(0xE0A3);
    public static readonly Glyph BlackHead = new(0xE0A4);
    public static readonly Glyph Dot = new(0xE1E7);
    public static readonly Glyph Flat = new(0xE260);
    public static readonly Glyph Natural = new(0xE261);
    public static readonly Glyph Sharp = new(0xE262);
    public static readonly Glyph DoubleSharp = new(0xE263);
    public static readonly Glyph DoubleFlat = new(0xE264);
    public static readonly Glyph WholeRest = new(0xE4E3);
    public static readonly Glyph TempoDot = new(0xECB7);

    /// <summary>A digit of a time signature, 0 to 9.</summary>
    public static Glyph TimeDigit(int digit) => new(0xE080 + digit);

    /// <summary>A digit of a tuplet's number, 0 to 9.</summary>
    public static Glyph TupletDigit(int digit) => new(0xE880 + digit);

    /// <summary>The sign of an alteration, -2 to 2.</summary>
    public static Glyph Accidental(int alter) =>
        alter switch
        {
            -2 => DoubleFlat,
            -1 => Flat,
            0 => Natural,
            1 => Sharp,
            _ => DoubleSharp,
        };

    /// <summary>A flag for an upward or a downward stem.</summary>
    /// <param name="flags">1 for eighths, 2 for sixteenths, …</param>
    public static Glyph Flag(int flags, bool up) => new(0xE240 + (2 * (flags - 1)) + (up ? 0 : 1));

    /// <summary>A rest.</summary>
    /// <param name="denominator">1 for a whole rest, 8 for an eighth, …</param>
    public static Glyph Rest(int denominator) => new(WholeRest.CodePoint + Power(denominator));

    /// <summary>The head of a note.</summary>
    /// <param name="denominator">1 for a whole note, 8 for an eighth, …</param>
    public static Glyph Head(int denominator) =>
        denominator switch
        {
            1 => WholeHead,
            2 => HalfHead,
            _ => BlackHead,
        };

    /// <summary>The note that stands before a metronome mark.</summary>
    /// <param name="denominator">1 for a whole note, 8 for an eighth, …</param>
    public static Glyph TempoNote(int denominator) =>
        denominator == 1 ? new(0xECA2) : new(0xECA3 + (2 * (Power(denominator) - 1)));

    private static int Power(int denominator) => int.Log2(denominator);
}
