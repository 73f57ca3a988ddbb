using System.Collections.Concurrent;
using Rollwright.Lessons.Outputs;

namespace Rollwright.Web.State.Teaching;

/// <summary>
/// The lessons that open pages hold, so that the browser can fetch their documents by address. None is kept for nobody: a page
/// that is gone took its lesson with it. Names are drawn, not worked out: the same lesson on two pages is there for each.
/// </summary>
public sealed class LessonShelf
{
    private readonly ConcurrentDictionary<string, WeakReference<Lesson>> byId = new(StringComparer.Ordinal);

    /// <summary>Puts a lesson on the shelf.</summary>
    /// <returns>The name under which its documents are asked for: letters and digits.</returns>
    public string Put(Lesson lesson)
    {
        ArgumentNullException.ThrowIfNull(lesson);
        var id = Guid.NewGuid().ToString("N");
        byId[id] = new(lesson);
        foreach (var gone in byId.Where(entry => !entry.Value.TryGetTarget(out _)))
            byId.TryRemove(gone);
        return id;
    }

    public Lesson? Find(string id) =>
        byId.TryGetValue(id, out var weak) && weak.TryGetTarget(out var lesson) ? lesson : null;
}
