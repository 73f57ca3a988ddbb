using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Flow;

/// <summary>Parts text in several faces at its spaces into lines that fit a width.</summary>
internal static class RunLines
{
    /// <summary>A line, neighbours in one face joined.</summary>
    public static List<List<TextRun>> Of(ImmutableArray<TextRun> runs, double width, double size)
    {
        var lines = new List<List<TextRun>>();
        var line = new List<TextRun>();
        var used = 0.0;
        foreach (var word in WordsOf(runs))
        {
            foreach (var part in Fitting(word, width, size))
            {
                var room = WidthOf(part, size);
                var space = line.Count == 0 ? 0 : Lettering.WidthOf(" ", size, line[^1].Face);
                if (line.Count > 0 && used + space + room > width)
                {
                    lines.Add(line);
                    (line, used, space) = ([], 0, 0);
                }
                Join(line, part);
                used += space + room;
            }
        }
        if (line.Count > 0)
            lines.Add(line);
        return lines;
    }

    /// <summary>A line as ink.</summary>
    public static IEnumerable<Ink> Ink(List<TextRun> line, double x, double baseline, double size)
    {
        foreach (var run in line)
        {
            var text = run.Text.TrimEnd();
            if (text.Length > 0)
                yield return new Words(InkKind.Text, text, x, baseline, size, run.Face, Anchor.Left);
            x += Lettering.WidthOf(run.Text, size, run.Face);
        }
    }

    private static void Join(List<TextRun> line, List<TextRun> word)
    {
        if (line.Count > 0)
            line[^1] = line[^1] with { Text = line[^1].Text + " " };
        foreach (var run in word)
        {
            if (line.Count > 0 && line[^1].Face == run.Face)
                line[^1] = line[^1] with { Text = line[^1].Text + run.Text };
            else
                line.Add(run);
        }
    }

    // A word may change its face within; spaces are where words part, not where runs do.
    private static IEnumerable<List<TextRun>> WordsOf(ImmutableArray<TextRun> runs)
    {
        var word = new List<TextRun>();
        foreach (var run in runs)
        {
            var start = 0;
            for (var i = 0; i <= run.Text.Length; i++)
            {
                if (i < run.Text.Length && run.Text[i] is not (' ' or '\t' or '\n' or '\r'))
                    continue;
                if (i > start)
                    word.Add(run with { Text = run.Text[start..i].Replace('\u00a0', ' ') });
                start = i + 1;
                if (i < run.Text.Length && word.Count > 0)
                {
                    yield return word;
                    word = [];
                }
            }
        }
        if (word.Count > 0)
            yield return word;
    }

    // What is wider than a line is cut where it must be.
    private static IEnumerable<List<TextRun>> Fitting(List<TextRun> word, double width, double size)
    {
        if (WidthOf(word, size) <= width)
        {
            yield return word;
            yield break;
        }
        foreach (var run in word)
        {
            var rest = run.Text;
            while (rest.Length > 0)
            {
                var fits = rest.Length;
                while (fits > 1 && Lettering.WidthOf(rest[..fits], size, run.Face) > width)
                    fits--;
                // A letter of two code units stays whole.
                if (fits < rest.Length && fits > 1 && char.IsHighSurrogate(rest[fits - 1]))
                    fits--;
                yield return [run with { Text = rest[..fits] }];
                rest = rest[fits..];
            }
        }
    }

    private static double WidthOf(List<TextRun> runs, double size) =>
        runs.Sum(run => Lettering.WidthOf(run.Text, size, run.Face));
}
