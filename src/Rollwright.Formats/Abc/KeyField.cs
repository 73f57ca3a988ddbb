using System.Collections.Immutable;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.Abc;

/// <summary>
/// What a K: field says (ABC 2.1, sections 3.1.14 and 4.6): the key, the alteration of each letter, and how far the
/// music sounds from where it is written.
/// </summary>
/// <param name="Key">Tonic and mode.</param>
/// <param name="Alters">Semitones of C D E F G A B, signs that the field adds or takes included.</param>
/// <param name="Octaves">Octaves that sound above the written ones (octave=, clef=treble-8).</param>
/// <param name="Semitones">Semitones that sound above the written ones (transpose=).</param>
internal sealed record KeyField(Key Key, ImmutableArray<int> Alters, int Octaves = 0, int Semitones = 0)
{
    private static readonly (string Start, Mode Mode)[] Modes =
    [
        ("maj", Mode.Major),
        ("ion", Mode.Major),
        ("mix", Mode.Mixolydian),
        ("dor", Mode.Dorian),
        ("min", Mode.Minor),
        ("aeo", Mode.Minor),
        ("phr", Mode.Phrygian),
        ("loc", Mode.Locrian),
        ("lyd", Mode.Lydian),
    ];

    private static readonly char[] Blanks = [' ', '\t'];

    public static KeyField None { get; } = Of(new(new(Letter.C)));

    /// <summary>Reads the value of a K: field; <paramref name="wrong"/> says what could not be read, or is null.</summary>
    public static KeyField Read(string value, out string? wrong)
    {
        wrong = null;
        var text = value.Trim();
        // Great Highland pipes: the chanter's scale, F and C sharp (ABC 2.1, section 3.1.14).
        if (text.StartsWith("HP", StringComparison.OrdinalIgnoreCase))
            return Of(new(new(Letter.A), Mode.Mixolydian));
        var rest = text;
        var field = None;
        var isExplicit = false;
        if (text.Length > 0 && text[0] is >= 'A' and <= 'G' && !IsWord(text))
        {
            field = Of(ReadKey(text, out rest, out isExplicit, out wrong));
        }
        else if (text.Length > 0 && !IsParameter(text) && !text.StartsWith("none", StringComparison.OrdinalIgnoreCase))
        {
            wrong = $"'{Shorten(text)}' is not a key";
            return None;
        }
        var alters = isExplicit ? new int[7] : [.. field.Alters];
        foreach (var token in rest.Split(Blanks, StringSplitOptions.RemoveEmptyEntries))
            ReadParameter(token, alters, ref field);
        return field with { Alters = [.. alters] };
    }

    private static KeyField Of(Key key) => new(key, [.. Enum.GetValues<Letter>().Select(key.AlterOf)]);

    // "clef=bass", "bass", "treble-8": a field that changes the clef alone.
    private static bool IsParameter(string text) =>
        text.Contains('=', StringComparison.Ordinal)
        || text[0] is '^' or '_'
        || StartsWithAny(text, "treble", "bass", "alto", "tenor", "perc", "exp");

    private static bool IsWord(string text) =>
        text.Length > 4 && text[1..].StartsWith("lef=", StringComparison.Ordinal);

    private static bool StartsWithAny(string text, params ReadOnlySpan<string> words)
    {
        foreach (var word in words)
        {
            if (text.StartsWith(word, StringComparison.OrdinalIgnoreCase))
                return true;
        }
        return false;
    }

    private static Key ReadKey(string text, out string rest, out bool isExplicit, out string? wrong)
    {
        wrong = null;
        isExplicit = false;
        var at = 1;
        if (at < text.Length && text[at] is '#' or 'b' or '♯' or '♭')
            at++;
        var tonic = PitchName.Parse(text.AsSpan(0, at))!.Value;
        var word = at;
        while (word < text.Length && char.IsWhiteSpace(text[word]))
            word++;
        var end = word;
        while (end < text.Length && char.IsAsciiLetter(text[end]))
            end++;
        var mode = text[word..end];
        rest = text[end..];
        // Capitals do not matter ("EM" is E minor); of longer words three letters count.
        if (mode is "m" or "M")
            return new(tonic, Mode.Minor);
        if (mode.Length == 0)
            return new(tonic);
        foreach (var (start, known) in Modes)
        {
            if (mode.StartsWith(start, StringComparison.OrdinalIgnoreCase))
                return new(tonic, known);
        }
        if (mode.StartsWith("exp", StringComparison.OrdinalIgnoreCase))
            isExplicit = true;
        else if (IsParameter(text[word..]))
            rest = text[word..];
        else
            wrong = $"'{Shorten(mode)}' is not a mode";
        return new(tonic);
    }

    private static void ReadParameter(string token, int[] alters, ref KeyField field)
    {
        var equals = token.IndexOf('=', StringComparison.Ordinal);
        if (token[0] is '^' or '_' or '=')
            ReadSigns(token, alters);
        else if (token.StartsWith("octave=", StringComparison.Ordinal) && int.TryParse(token[7..], out var octaves))
            field = field with { Octaves = field.Octaves + Math.Clamp(octaves, -4, 4) };
        else if (
            token.StartsWith("transpose=", StringComparison.Ordinal) && int.TryParse(token[10..], out var semitones)
        )
            field = field with { Semitones = Math.Clamp(semitones, -36, 36) };
        else if (equals < 0 || token.StartsWith("clef=", StringComparison.Ordinal))
            field = field with { Octaves = field.Octaves + ClefOctaves(token) };
    }

    private static int ClefOctaves(string clef) =>
        clef.EndsWith("-8", StringComparison.Ordinal) ? -1
        : clef.EndsWith("+8", StringComparison.Ordinal) ? 1
        : 0;

    // "^f_b=c", "__b": signs for single letters.
    private static void ReadSigns(string token, int[] alters)
    {
        var alter = 0;
        foreach (var sign in token)
        {
            var letter = "CDEFGAB".IndexOf(char.ToUpperInvariant(sign));
            if (sign == '^')
                alter = Math.Min(2, alter + 1);
            else if (sign == '_')
                alter = Math.Max(-2, alter - 1);
            else if (sign == '=')
                alter = 0;
            else if (letter >= 0)
            {
                alters[letter] = alter;
                alter = 0;
            }
        }
    }

    private static string Shorten(string text) => text.Length <= 24 ? text : text[..24] + "…";
}
