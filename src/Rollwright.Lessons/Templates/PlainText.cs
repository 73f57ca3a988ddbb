using System.Text;

namespace Rollwright.Lessons.Templates;

/// <summary>Titles and names come from anywhere: as Markdown, nothing in them is a mark, or markup.</summary>
internal static class PlainText
{
    public static string Of(string words)
    {
        var plain = new StringBuilder(words.Length);
        for (var i = 0; i < words.Length; i++)
        {
            var sign = words[i];
            var isEntity =
                sign == '&' && i + 1 < words.Length && (char.IsAsciiLetter(words[i + 1]) || words[i + 1] == '#');
            if (isEntity || sign is '\\' or '`' or '*' or '_' or '[' or ']' or '<' or '>' or '|')
                plain.Append('\\');
            plain.Append(char.IsControl(sign) ? ' ' : sign);
        }
        return plain.ToString();
    }
}
