using System.Collections.Concurrent;

namespace Rollwright.Web.State.Sharing;

/// <summary>A thing of each person's own, where without a class one for all would do: nobody finds another's on it.</summary>
public sealed class ForEach<T>(Func<T> make)
    where T : class
{
    private readonly ConcurrentDictionary<string, T> things = new(StringComparer.Ordinal);

    public T Of(string person) => things.GetOrAdd(person, _ => make());
}
