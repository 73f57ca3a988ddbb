using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Listening.Beside.Answers;

namespace Rollwright.Listening.Beside.Words;

/// <summary>What a kind teacher says about a take: short, and nothing that the figures do not say.</summary>
/// <param name="Whole">Of the whole take, a sentence each.</param>
/// <param name="Phrases">
/// By phrase in order of play, as in <see cref="Comparison.Phrases"/>; empty where the take is not of this break.
/// </param>
public sealed record TakeWords(ImmutableArray<string> Whole, ImmutableArray<string> Phrases)
{
    /// <param name="played">The break that the take was laid beside.</param>
    /// <param name="found">The answer.</param>
    public static TakeWords Of(Break played, Comparison found)
    {
        ArgumentNullException.ThrowIfNull(played);
        ArgumentNullException.ThrowIfNull(found);
        if (!found.Follows)
            return new(
                [
                    // Rounded down: 100 % is all of them.
                    $"This take does not follow the break: {(int)Math.Floor(found.Found * 100)} % of its notes were found. Choose the break that was played, or have the take written out by itself.",
                ],
                []
            );
        var teller = new TakeTeller(played, found);
        return new([.. teller.WholeTake()], [.. teller.EachPhrase()]);
    }
}
