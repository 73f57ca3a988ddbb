using System.Diagnostics.CodeAnalysis;
using Rollwright.Audio;

namespace Rollwright.Web.State.Hearing;

/// <summary>Recordings on their way from a browser to its page: in memory only, each until its page takes it.</summary>
/// <param name="most">How many lie there at most: what pages that were closed left behind makes room for the next.</param>
public sealed class TakeShelf(int most = 4)
{
    private readonly Lock gate = new();
    private readonly Queue<(string Id, Samples Sound)> waiting = new();

    /// <returns>The name under which the page takes it.</returns>
    public string Put(Samples sound)
    {
        var id = Guid.NewGuid().ToString("N");
        lock (gate)
        {
            waiting.Enqueue((id, sound));
            if (waiting.Count > most)
                waiting.Dequeue();
        }
        return id;
    }

    public bool TryTake(string id, [NotNullWhen(true)] out Samples? sound)
    {
        lock (gate)
        {
            var all = waiting.ToList();
            waiting.Clear();
            sound = null;
            foreach (var one in all)
            {
                if (one.Id == id)
                    sound = one.Sound;
                else
                    waiting.Enqueue(one);
            }
            return sound is not null;
        }
    }
}
