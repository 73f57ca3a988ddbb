using System.Collections.Immutable;

namespace Rollwright.Arranging.Wishes;

/// <summary>
/// How written bars follow each other in play: a tree (a bar before two endings has two children), and the seams where
/// play jumps to a bar that already has its place in the tree: the end of a repeat back to its beginning.
/// </summary>
public sealed class BarTree
{
    private BarTree(
        ImmutableArray<int> parent,
        ImmutableArray<ImmutableArray<int>> children,
        ImmutableArray<(int, int)> seams
    )
    {
        Parent = parent;
        Children = children;
        Seams = seams;
    }

    /// <summary>The bar before in the tree; -1 for the first. Always a lower index.</summary>
    public ImmutableArray<int> Parent { get; }

    /// <summary>The bars after, in the tree.</summary>
    public ImmutableArray<ImmutableArray<int>> Children { get; }

    /// <summary>Pairs of bars that follow each other, in play or on the page, besides the tree.</summary>
    public ImmutableArray<(int From, int To)> Seams { get; }

    public static BarTree Of(ImmutableArray<int> order, int count)
    {
        var parent = Enumerable.Repeat(-1, count).ToArray();
        var known = new bool[count];
        var seams = new SortedSet<(int, int)>();
        for (var i = 0; i < order.Length; i++)
        {
            var bar = order[i];
            if (i == 0)
            {
                known[bar] = true;
                continue;
            }
            var before = order[i - 1];
            if (!known[bar] && before < bar)
            {
                known[bar] = true;
                parent[bar] = before;
            }
            else if (parent[bar] != before)
            {
                known[bar] = true;
                seams.Add((before, bar));
            }
        }
        // Whoever practises straight down the page goes from one ending into the other: that too must be playable.
        for (var bar = 1; bar < count; bar++)
        {
            if (known[bar] && parent[bar] != bar - 1)
                seams.Add((bar - 1, bar));
        }
        // A bar that is never played still stands on the page; it follows the bar written before it.
        for (var bar = 1; bar < count; bar++)
        {
            if (!known[bar])
                parent[bar] = bar - 1;
        }
        var after = Enumerable.Range(0, count).ToLookup(bar => parent[bar]);
        var children = Enumerable.Range(0, count).Select(bar => after[bar].ToImmutableArray());
        return new([.. parent], [.. children], [.. seams]);
    }
}
