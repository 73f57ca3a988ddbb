using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Notation;

/// <summary>A length that one note or rest can show.</summary>
/// <param name="Denominator">1 for a whole note, 2, 4, 8, 16, 32.</param>
/// <param name="Dots">0, 1 or 2.</param>
internal readonly record struct NoteValue(int Denominator, int Dots = 0)
{
    public const int Finest = 32;

    /// <summary>Beams or flags.</summary>
    public int Flags => Denominator < 8 ? 0 : int.Log2(Denominator) - 2;

    public bool HasStem => Denominator > 1;

    public Fraction Length => new((2 << Dots) - 1, (long)Denominator << Dots);

    /// <summary>The value of exactly that length; null where there is none.</summary>
    public static NoteValue? Of(Fraction length)
    {
        foreach (var value in All)
        {
            if (value.Length == length)
                return value;
        }
        return null;
    }

    /// <summary>The longest value, dotted at most once, that is not longer; the finest where none is.</summary>
    public static NoteValue UpTo(Fraction length, int mostDots)
    {
        foreach (var value in All)
        {
            if (value.Dots <= mostDots && value.Length <= length)
                return value;
        }
        return new(Finest);
    }

    // From the longest to the shortest.
    private static readonly ImmutableArray<NoteValue> All =
    [
        .. from denominator in new[] { 1, 2, 4, 8, 16, Finest }
        from dots in new[] { 0, 1, 2 }
        let value = new NoteValue(denominator, dots)
        orderby value.Length descending
        select value,
    ];
}
