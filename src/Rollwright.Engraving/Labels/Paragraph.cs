using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Labels;

/// <summary>Parts a text into lines that fit a width.</summary>
internal static class Paragraph
{
    public static List<string> Lines(string text, double width, double size, Face face)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
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
