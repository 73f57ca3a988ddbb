using System.Globalization;
using System.Text;

namespace Rollwright.Formats.Abc;

/// <summary>Text strings of ABC 2.1, section 8.2: titles and names with their escapes.</summary>
internal static class TextString
{
    // Accent sign of ABC, letters, and what they make; the signs that names in open collections use.
    private static readonly (char Sign, string Letters, string Made)[] Accents =
    [
        ('`', "AEIOUaeiou", "ÀÈÌÒÙàèìòù"),
        ('\'', "AEIOUYaeiouy", "ÁÉÍÓÚÝáéíóúý"),
        ('^', "AEIOUaeiou", "ÂÊÎÔÛâêîôû"),
        ('~', "ANOano", "ÃÑÕãñõ"),
        ('"', "AEIOUaeiouy", "ÄËÏÖÜäëïöüÿ"),
        ('c', "Cc", "Çç"),
        ('o', "Aa", "Åå"),
        ('/', "Oo", "Øø"),
    ];

    public static string Read(string text)
    {
        if (!text.Contains('\\', StringComparison.Ordinal) && !text.Contains('&', StringComparison.Ordinal))
            return Clean(text);
        var made = new StringBuilder(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] != '\\' || i + 1 == text.Length)
                made.Append(text[i]);
            else if (Unicode(text, i) is { } sign)
            {
                made.Append(sign);
                i += 5;
            }
            else if (i + 2 < text.Length && Accented(text[i + 1], text[i + 2]) is { } letter)
            {
                made.Append(letter);
                i += 2;
            }
            else if (text[i + 1] is '%' or '&' or '\\')
                made.Append(text[++i]);
        }
        return Clean(made.ToString());
    }

    /// <summary>The text as a field's value: what reading takes for an escape or a comment is escaped.</summary>
    public static string Write(string text) =>
        Clean(text)
            .Replace("\\", "\\\\", StringComparison.Ordinal)
            .Replace("%", "\\%", StringComparison.Ordinal)
            .Replace("&", "\\&", StringComparison.Ordinal);

    /// <summary>"Mountain Path, The" is sorted under M and said "The Mountain Path".</summary>
    public static string Title(string text)
    {
        var title = Read(text);
        foreach (var article in (ReadOnlySpan<string>)["The", "A", "An"])
        {
            if (title.EndsWith($", {article}", StringComparison.OrdinalIgnoreCase))
                return $"{article} {title[..^(article.Length + 2)]}";
        }
        return title;
    }

    private static char? Unicode(string text, int at) =>
        text[at + 1] == 'u'
        && at + 5 < text.Length
        && ushort.TryParse(text.AsSpan(at + 2, 4), NumberStyles.AllowHexSpecifier, null, out var code)
            ? (char)code
            : null;

    private static char? Accented(char sign, char letter)
    {
        foreach (var accent in Accents)
        {
            var index = accent.Letters.IndexOf(letter, StringComparison.Ordinal);
            if (accent.Sign == sign && index >= 0)
                return accent.Made[index];
        }
        return null;
    }

    // Control characters have no place in a title, and some formats cannot carry them.
    private static string Clean(string text)
    {
        var isClean = !text.Any(sign => char.IsControl(sign) || char.IsSurrogate(sign) || sign is '\uFFFE' or '\uFFFF');
        return (
            isClean
                ? text
                : new string([
                    .. text.Where(sign => !char.IsControl(sign) && !char.IsSurrogate(sign) && sign < '\uFFFE'),
                ])
        ).Trim();
    }
}
