using System.Diagnostics.CodeAnalysis;

namespace Rollwright.Web.State;

/// <summary>
/// The breaks that were made, so that the browser can fetch their forms by address: every one that an open page still holds,
/// and those last made or asked for besides, for pages that were closed or gone back from.
/// </summary>
/// <param name="most">How many of the last; enough for a few pages and their going back.</param>
public sealed class Shelf(int most = 64)
{
    private readonly Lock gate = new();

    // Weak, so that a page's own break is found however many others were made meanwhile, and none is kept for nobody.
    private readonly Dictionary<string, WeakReference<Made>> byId = [];

    // The latest first.
    private readonly LinkedList<Made> recent = [];

    /// <summary>Puts a break on the shelf.</summary>
    /// <returns>What lies there under its name: the one that was there before, if any page still holds it.</returns>
    public Made Put(Made made)
    {
        ArgumentNullException.ThrowIfNull(made);
        lock (gate)
        {
            if (Held(made.Id) is { } there)
                made = there;
            else
                byId[made.Id] = new(made);
            Touch(made);
            return made;
        }
    }

    public bool TryFind(string id, [NotNullWhen(true)] out Made? made)
    {
        lock (gate)
        {
            made = Held(id);
            if (made is not null)
                Touch(made);
            return made is not null;
        }
    }

    private Made? Held(string id) =>
        byId.TryGetValue(id, out var weak) && weak.TryGetTarget(out var made) ? made : null;

    private void Touch(Made made)
    {
        recent.Remove(made);
        recent.AddFirst(made);
        if (recent.Count <= most)
            return;
        recent.RemoveLast();
        if (byId.Count > 4 * most)
            Sweep();
    }

    private void Sweep()
    {
        foreach (var gone in byId.Where(entry => !entry.Value.TryGetTarget(out _)).Select(entry => entry.Key).ToList())
            byId.Remove(gone);
    }
}
