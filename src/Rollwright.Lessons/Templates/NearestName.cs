namespace Rollwright.Lessons.Templates;

/// <summary>What someone may have meant to type: the least letters put in, left out or changed (Levenshtein 1966).</summary>
internal static class NearestName
{
    public static string To(string typed, IEnumerable<string> names) =>
        names.Order(StringComparer.Ordinal).MinBy(name => Distance(typed.ToLowerInvariant(), name)) ?? "";

    private static int Distance(string one, string other)
    {
        var row = Enumerable.Range(0, other.Length + 1).ToArray();
        for (var i = 1; i <= one.Length; i++)
        {
            var (diagonal, left) = (row[0], i);
            row[0] = i;
            for (var j = 1; j <= other.Length; j++)
            {
                var changed = diagonal + (one[i - 1] == other[j - 1] ? 0 : 1);
                diagonal = row[j];
                left = Math.Min(changed, Math.Min(row[j], left) + 1);
                row[j] = left;
            }
        }
        return row[^1];
    }
}
