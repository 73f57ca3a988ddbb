using CsCheck;
using Rollwright.Music.Metre;

namespace Rollwright.Music.Tests.Metre;

public class FractionTests
{
    private static readonly Gen<Fraction> Fractions = Gen.Select(Gen.Int[-500, 500], Gen.Int[1, 96])
        .Select((n, d) => new Fraction(n, d));

    [Fact]
    public void Addition_is_undone_by_subtraction() =>
        Gen.Select(Fractions, Fractions).Sample((a, b) => (a + b - b) == a);

    [Fact]
    public void Order_agrees_with_decimal_arithmetic() =>
        Gen.Select(Fractions, Fractions)
            .Sample((a, b) => Math.Sign(a.CompareTo(b)) == Math.Sign(a.ToDouble().CompareTo(b.ToDouble())));

    [Fact]
    public void The_remainder_lies_between_zero_and_the_divisor() =>
        Gen.Select(Fractions, Gen.Int[1, 96])
            .Sample((a, d) => a % new Fraction(1, d) >= Fraction.Zero && a % new Fraction(1, d) < new Fraction(1, d));

    [Fact]
    public void The_default_value_is_zero() => default(Fraction).Should().Be(new Fraction(0, 7));
}
