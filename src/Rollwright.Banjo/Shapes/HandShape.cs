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

    public int LowestFret
    {
        get
        {
            var lowest = 0;
            for (var s = 1; s <= 4; s++)
            {
                var fret = FretOn(s);
                if (fret > 0 && (lowest == 0 || fret < lowest))
                    lowest = fret;
            }
            return lowest;
        }
    }

    public int HighestFret
    {
        get
        {
            var highest = 0;
            for (var s = 1; s <= 4; s++)
                highest = Math.Max(highest, FretOn(s));
            return highest;
        }
    }

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
    public int Position
    {
        get
        {
            var position = 0;
            for (var s = 1; s <= 4; s++)
            {
                var fret = FretOn(s);
                if (fret == 0)
                    continue;
                var index = Math.Max(1, fret - FingerOn(s) + 1);
                position = position == 0 ? index : Math.Max(position, index);
            }
            return position;
        }
    }

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

    /// <summary>Frets of strings 4-3-2-1, as shapes are written: "2-0-1-2".</summary>
    public override string ToString() => $"{FretOn(4)}-{FretOn(3)}-{FretOn(2)}-{FretOn(1)}";
}
