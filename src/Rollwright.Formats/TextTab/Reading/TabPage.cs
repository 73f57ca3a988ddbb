using Rollwright.Formats.Messages;

namespace Rollwright.Formats.TextTab.Reading;

/// <summary>Five strings that stand under one another, from string 1, with the words above and below.</summary>
/// <param name="Strings">Strings 1 to 5.</param>
/// <param name="Above">The lines since the system before.</param>
/// <param name="Below">The lines down to the next empty one or the next system.</param>
internal sealed record TabSystem(
    IReadOnlyList<TabLine> Strings,
    IReadOnlyList<TabLine> Above,
    IReadOnlyList<TabLine> Below
);

/// <summary>The lines of a page: a head, and systems.</summary>
internal sealed class TabPage
{
    public List<TabLine> Head { get; } = [];

    public List<TabSystem> Systems { get; } = [];

    public static TabPage Of(string text, MessageLog log)
    {
        var lines = text.ReplaceLineEndings("\n").Split('\n').Select((line, i) => TabLine.Of(i + 1, line)).ToList();
        var page = new TabPage();
        var words = new List<TabLine>();
        for (var i = 0; i < lines.Count; )
        {
            if (!lines[i].IsString)
            {
                words.Add(lines[i++]);
                continue;
            }
            var first = i;
            while (i < lines.Count && lines[i].IsString)
                i++;
            page.Add(lines[first..i], words, log);
            words = [];
            while (i < lines.Count && !lines[i].IsBlank && !lines[i].IsString)
                words.Add(lines[i++]);
            if (page.Systems.Count > 0)
                page.Systems[^1] = page.Systems[^1] with { Below = words };
            words = [];
        }
        return page;
    }

    private void Add(List<TabLine> strings, List<TabLine> words, MessageLog log)
    {
        if (strings.Count != Banjo.Tunings.Neck.Strings)
        {
            log.Error(
                strings[0].Number,
                1,
                $"{strings.Count} {(strings.Count == 1 ? "string stands" : "strings stand")} together where a banjo has five; they are left out",
                "write five lines under one another, an empty line between systems"
            );
            return;
        }
        if (Systems.Count == 0)
        {
            // What stands right above the first system, with no empty line between, belongs to it.
            var near = words.FindLastIndex(line => line.IsBlank) + 1;
            Head.AddRange(words[..near]);
            words = words[near..];
        }
        // The name of the short string, or its number, at the top: the page stands on its head.
        var isUpsideDown =
            strings[0].Label is "5" || (strings[0].Label is "g" or "a" && strings[4].Label is not ("g" or "a" or ""));
        if (isUpsideDown)
        {
            log.NoteOnce(strings[0].Number, 1, "string 5 stands at the top; the strings are read from below");
            strings.Reverse();
        }
        Systems.Add(new(strings, words, []));
    }
}
