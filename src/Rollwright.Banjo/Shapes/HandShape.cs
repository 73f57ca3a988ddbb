using Rollwright.Banjo.Tunings;

namespace Rollwright.Banjo.Shapes;

/// <summary>
/// Which left-hand finger is where: for each long string a fret (0: nothing down) and the finger that holds it. Packed
/// in one number, so that shapes compare and hash at once.
/// </summary>
public readonly record struct HandShape
{
    // Per string 1–4: five bits of fret, three bits of finger.
    private readonly uint bits;

    private HandShape(uint bits) => this.bits = bits;

    public static HandShape Open => default;

    /// <summary>Fret that a finger holds on a long string, 1 to 4; 0 where none does. Always 0 on string 5.</summary>
    public int FretOn(int banjoString) => banjoString > 4 ? 0 : (int)(bits >> (8 * (banjoString - 1))) & 31;

    /// <summary>Finger on a long string, 1 index to 4 little; 0 where none is.</summary>
    public int FingerOn(int banjoString) => banjoString > 4 ? 0 : (int)(bits >> ((8 * (banjoString - 1)) + 5)) & 7;

    public bool IsOpen => bits == 0;

    /// <summary>The same shape with a finger put on a string, or lifted with fret 0.</summary>
    public HandShape With(int banjoString, int fret, int finger)
    {
        var shift = 8 * (banjoString - 1);
        var cleared = bits & ~(255u << shift);
        return new(fret == 0 ? cleared : cleared | ((uint)(fret | (finger << 5)) << shift));
    }

    // These are asked for tens of thousands of times a tune: no loops. No fret counts as 32, which is none again.
    public int LowestFret => (Math.Min(Math.Min(Below(0), Below(8)), Math.Min(Below(16), Below(24))) + 1) & 31;

    public int HighestFret => Math.Max(Math.Max(Fret(0), Fret(8)), Math.Max(Fret(16), Fret(24)));

    /// <summary>Strings held down.</summary>
    public int Count
    {
        get
        {
            var count = 0;
            for (var s = 1; s <= 4; s++)
                count += FretOn(s) > 0 ? 1 : 0;
            return count;
        }
    }

    /// <summary>
    /// Where the index finger stands, as a fret: from the finger that holds the lowest fret. 0 for the open hand, which
    /// stands anywhere.
    /// </summary>
    public int Position =>
        Math.Max(Math.Max(IndexBehind(0), IndexBehind(8)), Math.Max(IndexBehind(16), IndexBehind(24)));

    /// <summary>Distance between the outermost fingers along the neck, mm.</summary>
    public double Span => IsOpen ? 0 : Neck.Place(HighestFret) - Neck.Place(LowestFret);

    /// <summary>Whether every finger of this shape is in the other at the same place.</summary>
    public bool IsWithin(HandShape other)
    {
        for (var s = 1; s <= 4; s++)
        {
            if (FretOn(s) > 0 && (FretOn(s) != other.FretOn(s) || FingerOn(s) != other.FingerOn(s)))
                return false;
        }
        return true;
    }

    // By the place of a string's bits: its fret; the fret below it, 31 for none; where the index finger stands then.
    private int Fret(int at) => (int)(bits >> at) & 31;

    private int Below(int at) => (Fret(at) - 1) & 31;

    private int IndexBehind(int at) => Fret(at) == 0 ? 0 : Math.Max(1, Fret(at) - ((int)(bits >> (at + 5)) & 7) + 1);

    /// <summary>Frets of strings 4-3-2-1, as shapes are written: "2-0-1-2".</summary>
    public override string ToString() => $"{FretOn(4)}-{FretOn(3)}-{FretOn(2)}-{FretOn(1)}";
}
