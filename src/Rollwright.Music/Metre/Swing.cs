namespace Rollwright.Music.Metre;

/// <summary>
/// How a pair of steps that is written even is played: first to second, in lowest terms. 2:1 is the long and short of
/// hornpipes.
/// </summary>
public sealed record Swing
{
    /// <summary>More than this on either side is no swing but another rhythm (assumption).</summary>
    public const int Most = 16;

    private Swing(int first, int second) => (First, Second) = (first, second);

    /// <summary>Twice as long as the second: hornpipes (common practice; abc2midi plays the same).</summary>
    public static Swing TwoToOne { get; } = new(2, 1);

    /// <summary>Parts of the first step, 1 to <see cref="Most"/>.</summary>
    public int First { get; }

    /// <summary>Parts of the second step, 1 to <see cref="Most"/>.</summary>
    public int Second { get; }

    /// <summary>Share of the pair that the first step takes, between 0 and 1; 1/2 is even.</summary>
    public Fraction FirstShare => new(First, First + Second);

    /// <summary>The ratio in lowest terms; null where a side is not 1 to <see cref="Most"/>, or where it is even.</summary>
    public static Swing? Of(int first, int second)
    {
        if (first is < 1 or > Most || second is < 1 or > Most || first == second)
            return null;
        var ratio = new Fraction(first, second);
        return new((int)ratio.Numerator, (int)ratio.Denominator);
    }

    /// <summary>Reads "2:1"; null where it is no swing.</summary>
    public static Swing? Parse(string text)
    {
        var colon = text.IndexOf(':', StringComparison.Ordinal);
        return
            colon > 0
            && int.TryParse(text.AsSpan(0, colon), out var first)
            && int.TryParse(text.AsSpan(colon + 1), out var second)
            ? Of(first, second)
            : null;
    }

    public override string ToString() => $"{First}:{Second}";
}
