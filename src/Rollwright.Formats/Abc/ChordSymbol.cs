using Rollwright.Music.Chords;

namespace Rollwright.Formats.Abc;

/// <summary>What stands between quotation marks (ABC 2.1, sections 4.18 and 4.19).</summary>
internal static class ChordSymbol
{
    private const string SuffixSigns = "0123456789#b+-majdinsug()/";

    /// <summary>Text with a place in front of it, or text that is plainly no chord.</summary>
    public static bool IsAnnotation(string text) => text.Length == 0 || text[0] is '^' or '_' or '<' or '>' or '@';

    /// <summary>
    /// Reads a chord symbol; null where it is none. Of alternatives ("G(Em)", "G;Em") the first counts; a suffix that
    /// is not known here is shortened until it is ("D7#9" is read as D7). A dialect of open collections is read too:
    /// "Cd" diminished, "Ca" augmented, a bass in small letters.
    /// </summary>
    public static Chord? Read(string text)
    {
        var symbol = text.Trim();
        // A chord that may be left out stands in brackets.
        if (symbol.StartsWith('(') && symbol.EndsWith(')'))
            symbol = symbol[1..^1].Trim();
        var next = symbol.AsSpan().IndexOfAny('(', ';', ',');
        if (next > 0 && (symbol[next] != '(' || (next + 1 < symbol.Length && symbol[next + 1] is >= 'A' and <= 'G')))
            symbol = symbol[..next].TrimEnd();
        if (symbol.Length == 0)
            return null;
        if (symbol[0] is >= 'a' and <= 'g')
            symbol = char.ToUpperInvariant(symbol[0]) + symbol[1..];
        if (Chord.Parse(symbol) is { } chord)
            return chord;
        foreach (var sign in symbol.AsSpan(1))
        {
            if (!SuffixSigns.Contains(sign, StringComparison.Ordinal))
                return null;
        }
        for (var length = Math.Min(symbol.Length - 1, 12); length >= 2; length--)
        {
            if (Chord.Parse(symbol[..length]) is { } shorter)
                return shorter;
        }
        return null;
    }
}
