using Rollwright.Music.Metre;

namespace Rollwright.Formats.Abc;

/// <summary>Duplets, triplets and the like (ABC 2.1, section 4.13): p notes in the time of q, for the next r notes.</summary>
/// <param name="Scale">What each note's length is multiplied by, q/p.</param>
/// <param name="Notes">How many notes it counts.</param>
internal readonly record struct Tuplet(Fraction Scale, int Notes)
{
    /// <summary>Reads "3", "3:2", "3:2:4", "3::2" behind the bracket; null where p, q or r is out of range.</summary>
    public static Tuplet? Read(ref Cursor cursor, TimeSignature time)
    {
        var p = cursor.Number(99) ?? 0;
        int? q = null;
        int? r = null;
        if (cursor.Take(':'))
        {
            q = cursor.Number(99);
            if (cursor.Take(':'))
                r = cursor.Number(99);
        }
        if (p is < 2 or > 9 || q is 0 or > 9 || r is 0 or > 64)
            return null;
        // The letter n of the standard: three in compound time, two otherwise.
        var n = time.IsCompound ? 3 : 2;
        var usual = p switch
        {
            2 or 4 or 8 => 3,
            3 or 6 => 2,
            _ => n,
        };
        return new(new(q ?? usual, p), r ?? p);
    }
}
