namespace Rollwright.Lessons.Templates;

/// <summary>Puts a filled template in order: no heading without anything under it, no more than one empty line running.</summary>
internal static class MarkdownTidying
{
    public static string Tidy(string markdown)
    {
        var lines = markdown.ReplaceLineEndings("\n").Split('\n');
        var kept = new List<string>();
        // Headings that wait for something to stand under them, outermost first.
        var waiting = new List<(int Level, string Line)>();
        var fence = "";
        foreach (var line in lines)
        {
            if (fence.Length == 0 && LevelOf(line) is var level and > 0)
            {
                waiting.RemoveAll(heading => heading.Level >= level);
                waiting.Add((level, line));
                continue;
            }
            if (fence.Length == 0 && line.Trim().Length == 0)
            {
                if (waiting.Count == 0 && kept.Count > 0 && kept[^1].Length > 0)
                    kept.Add("");
                continue;
            }
            foreach (var (_, heading) in waiting)
            {
                if (kept.Count > 0 && kept[^1].Length > 0)
                    kept.Add("");
                kept.Add(heading);
                kept.Add("");
            }
            waiting.Clear();
            kept.Add(line);
            fence = FenceAfter(line, fence);
        }
        // A title alone is something.
        if (kept.Count == 0)
            kept.AddRange(waiting.Select(heading => heading.Line));
        return string.Join('\n', kept).TrimEnd('\n') + "\n";
    }

    private static int LevelOf(string line)
    {
        var level = line.TakeWhile(sign => sign == '#').Count();
        return level is >= 1 and <= 6 && line.Length > level && line[level] == ' ' ? level : 0;
    }

    // Code is between lines of three or more of the same sign (CommonMark 0.31, 4.5).
    private static string FenceAfter(string line, string fence)
    {
        var start = line.TrimStart(' ');
        if (fence.Length > 0)
            return start.StartsWith(fence, StringComparison.Ordinal) && start.Trim().All(sign => sign == fence[0])
                ? ""
                : fence;
        foreach (var sign in "`~")
        {
            var count = start.TakeWhile(one => one == sign).Count();
            if (count >= 3)
                return new(sign, count);
        }
        return "";
    }
}
