using System.Diagnostics.CodeAnalysis;

namespace Rollwright.Web.State;

/// <summary>The last breaks that were made, kept so that the browser can fetch their forms by address.</summary>
public sealed class Shelf
{
    /// <summary>Enough for a few open pages and their going back.</summary>
    private const int Most = 64;

    private readonly Lock gate = new();
    private readonly Dictionary<string, Made> byId = [];
    private readonly Queue<string> order = [];

    public void Put(Made made)
    {
        ArgumentNullException.ThrowIfNull(made);
        lock (gate)
        {
            if (!byId.TryAdd(made.Id, made))
                return;
            order.Enqueue(made.Id);
            if (order.Count > Most)
                byId.Remove(order.Dequeue());
        }
    }

    public bool TryFind(string id, [NotNullWhen(true)] out Made? made)
    {
        lock (gate)
            return byId.TryGetValue(id, out made);
    }
}
