namespace Rollwright.Library.Importing;

/// <summary>The tunes of an ABC file one by one, each as a text of its own.</summary>
internal static class AbcPieces
{
    /// <summary>
    /// From each X: field to the next (ABC 2.1, 2.2.3: a tune begins with X:), with the fields of the file's head before it; a text
    /// without X: is one piece.
    /// </summary>
    /// <returns>Each text, and how many lines must be added to a line of it to get the file's.</returns>
    public static IEnumerable<(string Text, int LinesBefore)> Of(string text)
    {
        var lines = text.ReplaceLineEndings("\n").Split('\n');
        var starts = Enumerable
            .Range(0, lines.Length)
            .Where(i => lines[i].StartsWith("X:", StringComparison.Ordinal))
            .ToList();
        if (starts.Count == 0)
        {
            yield return (text, 0);
            yield break;
        }
        var head = lines[..starts[0]].Where(line => line.Length > 1 && line[1] == ':').ToArray();
        for (var i = 0; i < starts.Count; i++)
        {
            var end = i + 1 < starts.Count ? starts[i + 1] : lines.Length;
            // Fields of the head come behind X:, as readers want it first.
            string[] piece = [lines[starts[i]], .. head, .. lines[(starts[i] + 1)..end]];
            yield return (string.Join('\n', piece).TrimEnd() + "\n", starts[i] - head.Length);
        }
    }
}
