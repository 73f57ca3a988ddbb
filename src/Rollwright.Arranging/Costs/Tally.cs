namespace Rollwright.Arranging.Costs;

/// <summary>
/// Adds prices up. The prices are written once, for any tally: the solver's is a bare sum, the reasons' keeps every term.
/// </summary>
public interface ITally
{
    void Add(Term term, int price);
}

/// <summary>A bare sum, in thousandths of a plain melody note left out.</summary>
public struct Sum : ITally
{
    public int Total { get; private set; }

    public void Add(Term term, int price) => Total += price;
}

/// <summary>The terms one by one, those of no price left out.</summary>
public readonly struct Terms() : ITally
{
    public List<(Term Term, int Price)> Entries { get; } = [];

    public void Add(Term term, int price)
    {
        if (price != 0)
            Entries.Add((term, price));
    }
}
