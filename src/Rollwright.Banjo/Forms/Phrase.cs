using System.Collections.Immutable;

namespace Rollwright.Banjo.Forms;

/// <summary>Two bars that are taught and practised together (one where a part or an ending has no more).</summary>
/// <param name="Number">From 1 through the break, as on the page.</param>
/// <param name="Bars">Indices of its written bars, in order; a pickup belongs to the phrase that it opens.</param>
/// <param name="Ending">"1." where its last bar is played the first time only; empty where it is always played.</param>
/// <param name="Like">Number of the first phrase whose full bars hold the same strokes; its own where none is before it.</param>
public sealed record Phrase(int Number, ImmutableArray<int> Bars, string Ending, int Like)
{
    /// <summary>Whether another phrase before it is played with the same strokes: to be taught once.</summary>
    public bool IsAgain => Like != Number;
}
