using System.Collections.Immutable;

namespace Rollwright.Music.Forms;

/// <summary>
/// Phrases of two bars, counted from the start of each part and numbered through the piece (common practice of fiddle
/// tunes, no source). A pickup opens the phrase that it leads into.
/// </summary>
public sealed class PhraseNumbers
{
    private const int BarsAPhrase = 2;

    private readonly int opening;
    private readonly ImmutableArray<int> numbers;

    /// <param name="bars">Of bars that follow each other, the marks and whether it is short in front; at least one.</param>
    /// <param name="opening">Index of the first of them.</param>
    public PhraseNumbers(ImmutableArray<(BarMarks Marks, bool IsPickup)> bars, int opening = 0)
    {
        this.opening = opening;
        var ends = new PartEnds(bars);
        var builder = ImmutableArray.CreateBuilder<int>(bars.Length);
        var (number, full) = (0, 0);
        for (var i = 0; i < bars.Length; i++)
        {
            // A second ending does not follow the first.
            var jumpsTo = bars[i].Marks.EndingStart is { IsEmpty: false } passes && !passes.Contains(1);
            if (i == 0 || ends.Before(i) || full == BarsAPhrase || jumpsTo)
                (number, full) = (number + 1, 0);
            builder.Add(number);
            if (!bars[i].IsPickup)
                full++;
        }
        numbers = builder.MoveToImmutable();
    }

    /// <summary>The number of a bar's phrase, from 1.</summary>
    public int Of(int bar) => numbers[bar - opening];

    /// <summary>Whether a phrase begins with the bar of that index; also true behind the last bar.</summary>
    public bool Opens(int bar) => bar == opening || bar - opening >= numbers.Length || Of(bar) != Of(bar - 1);
}
