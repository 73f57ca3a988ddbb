using System.Text;

namespace Rollwright.Formats.TextTab.Reading;

/// <summary>One line of a page: its number from 1, its text with tab stops and drawn lines made plain.</summary>
internal sealed record TabLine(int Number, string Text)
{
    private const string StringSigns = "-|:0123456789hpsPHScCbB/\\~^()xXtTrv=*.<>_o ";

    public bool IsBlank => string.IsNullOrWhiteSpace(Text);

    /// <summary>Where the string itself begins, behind its name; -1 where the line is no string of tab.</summary>
    public int BodyStart { get; } = BodyOf(Text);

    public bool IsString => BodyStart >= 0;

    /// <summary>The name in front of the string, "D" or "3"; empty where there is none.</summary>
    public string Label => IsString ? Text[..BodyStart].Trim() : "";

    public char At(int column) => column >= 0 && column < Text.Length ? Text[column] : ' ';

    /// <summary>The words of the line and their columns.</summary>
    public IEnumerable<(int Column, string Word)> Words()
    {
        for (var i = 0; i < Text.Length; i++)
        {
            if (Text[i] == ' ')
                continue;
            var end = Text.IndexOf(' ', i);
            end = end < 0 ? Text.Length : end;
            yield return (i, Text[i..end]);
            i = end;
        }
    }

    /// <summary>Dashes and lines as word processors draw them are taken for plain ones; a tab stop is every eight columns.</summary>
    public static TabLine Of(int number, string text)
    {
        var plain = new StringBuilder(text.Length);
        foreach (var sign in text)
        {
            if (sign == '\t')
                plain.Append(' ', 8 - (plain.Length % 8));
            else if (sign is '–' or '—' or '─' or '−' or '‐')
                plain.Append('-');
            else if (sign is '│' or '¦' or '┃')
                plain.Append('|');
            else
                plain.Append(char.IsControl(sign) ? ' ' : sign);
        }
        return new(number, plain.ToString().TrimEnd());
    }

    private static int BodyOf(string text)
    {
        var start = 0;
        while (start < text.Length && text[start] == ' ')
            start++;
        if (start < text.Length && (char.IsAsciiLetter(text[start]) || text[start] is >= '1' and <= '5'))
        {
            start++;
            while (start < text.Length && text[start] is '#' or 'b' or '♯' or '♭')
                start++;
            while (start < text.Length && text[start] == ' ')
                start++;
        }
        if (start >= text.Length || text[start] is not ('|' or '-' or ':'))
            return -1;
        var dashes = 0;
        var other = 0;
        foreach (var sign in text.AsSpan(start))
        {
            if (!StringSigns.Contains(sign, StringComparison.Ordinal))
                return -1;
            dashes += sign is '-' or '|' or (>= '0' and <= '9') ? 1 : 0;
            other += sign is '-' or '|' or (>= '0' and <= '9') or ' ' ? 0 : 1;
        }
        return dashes >= 4 && other * 2 <= dashes && text.Contains('-', StringComparison.Ordinal) ? start : -1;
    }
}
