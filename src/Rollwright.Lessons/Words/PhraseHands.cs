using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;

namespace Rollwright.Lessons.Words;

/// <summary>
/// The left hand with which each phrase begins: an ending has the fingers where the bar that it follows has left them, other
/// phrases begin with a free hand, as whoever practises them alone does.
/// </summary>
internal sealed class PhraseHands
{
    private readonly Break played;
    private readonly ImmutableArray<int> order;
    private readonly Dictionary<int, int?> after;

    public PhraseHands(Break played)
    {
        this.played = played;
        Sources = new(played);
        // Both are worked out anew at every look: once is enough for long tunes.
        Phrases = BreakForm.Phrases(played);
        order = played.Order;
        after = Phrases.ToDictionary(phrase => phrase.Number, GoesOnFrom);
    }

    public ImmutableArray<Phrase> Phrases { get; }

    public SlurSources Sources { get; }

    /// <summary>The bar inside another phrase that comes before this one whenever it is played; null where there is none.</summary>
    public int? After(Phrase phrase) => after[phrase.Number];

    /// <summary>The hand as the phrase's first bar finds it; nothing has moved yet.</summary>
    public LeftHand At(Phrase phrase)
    {
        var into = Sources.Into(phrase.Bars);
        if (After(phrase) is not { } before)
            return new(played, into);
        var earlier = Phrases.First(other => other.Bars.Contains(before));
        var hand = At(earlier);
        foreach (var bar in earlier.Bars.TakeWhile(bar => bar <= before))
            hand.Next(bar);
        return new(played, into, [.. hand.Held.Except(into)]);
    }

    /// <summary>The bars that come after a bar, each once.</summary>
    public ImmutableArray<int> Following(int bar) =>
        [.. Enumerable.Range(0, order.Length - 1).Where(i => order[i] == bar).Select(i => order[i + 1]).Distinct()];

    private int? GoesOnFrom(Phrase phrase)
    {
        var before = Enumerable
            .Range(0, order.Length)
            .Where(i => order[i] == phrase.Bars[0])
            .Select(i => i > 0 ? order[i - 1] : (int?)null)
            .Distinct()
            .ToList();
        return before is [{ } only] && Phrases.Any(other => other.Bars.Contains(only) && other.Bars[^1] != only)
            ? only
            : null;
    }
}
