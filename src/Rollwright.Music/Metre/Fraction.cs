namespace Rollwright.Music.Metre;

/// <summary>
/// An exact rational number, always in lowest terms with a positive denominator. Musical time is a fraction of a
/// whole note (an eighth is 1/8), so that triplets and dotted notes add up without rounding.
/// </summary>
/// <remarks>The default value is zero. Arithmetic that leaves the range of 64 bits throws OverflowException.</remarks>
public readonly record struct Fraction : IComparable<Fraction>
{
    private readonly long denominator;

    public Fraction(long numerator, long denominator = 1)
    {
        if (denominator == 0)
            throw new ArgumentOutOfRangeException(nameof(denominator), "A fraction needs a denominator other than 0.");
        var divisor = GreatestCommonDivisor(numerator, denominator);
        if (denominator < 0)
            divisor = -divisor;
        Numerator = numerator / divisor;
        this.denominator = denominator / divisor;
    }

    // Euclid's rule; the least number of 64 bits has no magnitude in 64 bits and goes the slow way.
    private static long GreatestCommonDivisor(long a, long b)
    {
        if (a == long.MinValue || b == long.MinValue)
            return (long)System.Numerics.BigInteger.GreatestCommonDivisor(a, b);
        (a, b) = (Math.Abs(a), Math.Abs(b));
        while (b != 0)
            (a, b) = (b, a % b);
        return a;
    }

    public static Fraction Zero => default;

    public long Numerator { get; }

    /// <summary>At least 1; also for the default value.</summary>
    public long Denominator => denominator == 0 ? 1 : denominator;

    public static Fraction operator +(Fraction a, Fraction b) =>
        a.Denominator == b.Denominator
            ? new(checked(a.Numerator + b.Numerator), a.Denominator)
            : new(
                checked((a.Numerator * b.Denominator) + (b.Numerator * a.Denominator)),
                checked(a.Denominator * b.Denominator)
            );

    public static Fraction operator -(Fraction a) => new(checked(-a.Numerator), a.Denominator);

    public static Fraction operator -(Fraction a, Fraction b) => a + -b;

    public static Fraction operator *(Fraction a, Fraction b) =>
        new(checked(a.Numerator * b.Numerator), checked(a.Denominator * b.Denominator));

    public static Fraction operator *(Fraction a, long b) => new(checked(a.Numerator * b), a.Denominator);

    public static Fraction operator /(Fraction a, Fraction b) =>
        new(checked(a.Numerator * b.Denominator), checked(a.Denominator * b.Numerator));

    public static bool operator <(Fraction a, Fraction b) => a.CompareTo(b) < 0;

    public static bool operator >(Fraction a, Fraction b) => a.CompareTo(b) > 0;

    public static bool operator <=(Fraction a, Fraction b) => a.CompareTo(b) <= 0;

    public static bool operator >=(Fraction a, Fraction b) => a.CompareTo(b) >= 0;

    /// <summary>The remainder of a division by <paramref name="b"/>, from 0 up to but not including it.</summary>
    public static Fraction operator %(Fraction a, Fraction b) => a - (b * (a / b).Floor());

    /// <summary>The greatest whole number that is not greater.</summary>
    public long Floor()
    {
        var (quotient, remainder) = Math.DivRem(Numerator, Denominator);
        return remainder < 0 ? quotient - 1 : quotient;
    }

    public bool IsWhole => Denominator == 1;

    public double ToDouble() => (double)Numerator / Denominator;

    public int CompareTo(Fraction other) =>
        ((Int128)Numerator * other.Denominator).CompareTo((Int128)other.Numerator * Denominator);

    public bool Equals(Fraction other) => Numerator == other.Numerator && Denominator == other.Denominator;

    public override int GetHashCode() => HashCode.Combine(Numerator, Denominator);

    public static Fraction Max(Fraction a, Fraction b) => a >= b ? a : b;

    public static Fraction Min(Fraction a, Fraction b) => a <= b ? a : b;

    public override string ToString() => Denominator == 1 ? $"{Numerator}" : $"{Numerator}/{Denominator}";
}
