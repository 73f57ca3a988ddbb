using System.Globalization;

namespace Rollwright.Formats.Abc;

/// <summary>A place in a line of music; reads past the end give '\0'.</summary>
internal struct Cursor(AbcLine line)
{
    private readonly string text = line.Text;

    public readonly int Line => line.Number;

    public int At { get; set; }

    public readonly int Column => At + 1;

    public readonly bool IsAtEnd => At >= text.Length;

    public readonly char Sign => Peek(0);

    public readonly char Peek(int ahead) => At + ahead < text.Length ? text[At + ahead] : '\0';

    public char Take() => IsAtEnd ? '\0' : text[At++];

    public bool Take(char sign)
    {
        if (Sign != sign || IsAtEnd)
            return false;
        At++;
        return true;
    }

    public void SkipBlanks()
    {
        while (Sign is ' ' or '\t')
            At++;
    }

    /// <summary>The text up to a closing sign, which is passed over; null (and nothing passed) where none comes.</summary>
    public string? TakeUntil(char close)
    {
        var end = text.IndexOf(close, Math.Min(At, text.Length));
        if (end < 0)
            return null;
        var taken = text[At..end];
        At = end + 1;
        return taken;
    }

    /// <summary>The rest of the line, passed over.</summary>
    public string TakeRest()
    {
        var rest = text[Math.Min(At, text.Length)..];
        At = text.Length;
        return rest;
    }

    /// <summary>A whole number without sign; null where none stands here, its bound where it is greater.</summary>
    public int? Number(int bound)
    {
        if (!char.IsAsciiDigit(Sign))
            return null;
        var value = 0;
        while (char.IsAsciiDigit(Sign))
            value = Math.Min(bound, (value * 10) + CharUnicodeInfo.GetDecimalDigitValue(Take()));
        return value;
    }
}
