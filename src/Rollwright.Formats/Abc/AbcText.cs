using System.Text;

namespace Rollwright.Formats.Abc;

/// <summary>From bytes to text and from text to lines.</summary>
public static class AbcText
{
    private static readonly UTF8Encoding StrictUtf8 = new(false, true);

    /// <summary>
    /// Text of a file: UTF-8 (with or without a byte order mark) where it is valid, UTF-16 where a byte order mark
    /// says so, otherwise Latin-1, which older collections use. Null where the bytes are no text.
    /// </summary>
    public static string? Decode(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
            bytes = bytes[3..];
        else if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]))
            return Encoding.Unicode.GetString(bytes[2..]);
        else if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
            return Encoding.BigEndianUnicode.GetString(bytes[2..]);
        if (IsBinary(bytes))
            return null;
        try
        {
            return StrictUtf8.GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            return Encoding.Latin1.GetString(bytes);
        }
    }

    /// <summary>Lines without their ends (LF, CRLF or CR), numbered from 1.</summary>
    internal static IEnumerable<AbcLine> Lines(string text)
    {
        var number = 0;
        foreach (var line in text.Replace("\r\n", "\n", StringComparison.Ordinal).Replace('\r', '\n').Split('\n'))
            yield return new(++number, line);
    }

    // Text has no zero bytes and next to no other control characters.
    private static bool IsBinary(ReadOnlySpan<byte> bytes)
    {
        var controls = 0;
        foreach (var value in bytes)
        {
            if (value == 0)
                return true;
            if (value < 32 && value is not ((byte)'\t' or (byte)'\n' or (byte)'\r' or (byte)'\f' or 26))
                controls++;
        }
        return controls > 8 + (bytes.Length / 100);
    }
}
