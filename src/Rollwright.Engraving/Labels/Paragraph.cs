using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Labels;

/// <summary>Parts a text at its spaces into lines that fit a width; a no-break space (U+00A0) holds together.</summary>
internal static class Paragraph
{
    private static readonly char[] Spaces = [' ', '\t', '\r', '\n'];

    public static List<string> Lines(string text, double width, double size, Face face)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var bound in text.Split(Spaces, StringSplitOptions.RemoveEmptyEntries))
        {
            var word = bound.Replace('\u00a0', ' ');
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (Lettering.WidthOf(longer, size, face) <= width)
            {
                line = longer;
                continue;
            }
            if (line.Length > 0)
                lines.Add(line);
            line = word;
            while (Lettering.WidthOf(line, size, face) > width && line.Length > 1)
            {
                var fits = line.Length - 1;
                while (fits > 1 && Lettering.WidthOf(line[..fits], size, face) > width)
                    fits--;
                lines.Add(line[..fits]);
                line = line[fits..];
            }
        }
        if (line.Length > 0)
            lines.Add(line);
        return lines;
    }
}
