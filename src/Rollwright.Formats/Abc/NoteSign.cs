using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.Abc;

/// <summary>A note as written, before key and accidentals of the bar (ABC 2.1, sections 4.1 to 4.3).</summary>
/// <param name="Letter">C to B.</param>
/// <param name="Octave">Scientific octave: "C" is C4, "c" is C5.</param>
/// <param name="Alter">Its own accidental in semitones; null where it has none.</param>
/// <param name="Times">Its length in unit lengths.</param>
/// <param name="IsTied">Whether a tie follows it directly.</param>
internal readonly record struct NoteSign(Letter Letter, int Octave, int? Alter, Fraction Times, bool IsTied)
{
    private const int LongestNumber = 4096;

    public static bool StartsAt(in Cursor cursor) =>
        cursor.Sign is (>= 'A' and <= 'G') or (>= 'a' and <= 'g') or '^' or '_' or '=';

    /// <summary>Reads a note; null where accidentals stand before no letter (they are passed over).</summary>
    public static NoteSign? Read(ref Cursor cursor, out bool isMicrotone)
    {
        var alter = ReadAccidental(ref cursor, out isMicrotone);
        var sign = cursor.Sign;
        var letter = "CDEFGAB".IndexOf(char.ToUpperInvariant(sign), StringComparison.Ordinal);
        if (letter < 0 || sign == '\0')
            return null;
        cursor.Take();
        var octave = char.IsAsciiLetterLower(sign) ? 5 : 4;
        for (; cursor.Sign is '\'' or ','; cursor.Take())
            octave = Math.Clamp(octave + (cursor.Sign == '\'' ? 1 : -1), -2, 12);
        var times = ReadTimes(ref cursor);
        // Some collections put the tie's dash behind a blank or a dot.
        var isTied = cursor.Take('-');
        return new((Letter)letter, octave, alter, times, isTied);
    }

    /// <summary>Reads "3/2", "2", "/", "//", "/4" and nothing at all, which is 1. Zero stands for a length of 0 or n/0.</summary>
    public static Fraction ReadTimes(ref Cursor cursor)
    {
        var upper = cursor.Number(LongestNumber) ?? 1;
        if (cursor.Sign != '/')
            return new(upper);
        long lower = 1;
        while (cursor.Take('/'))
            lower =
                cursor.Number(LongestNumber) is { } number ? lower * number
                : lower * 2 > LongestNumber ? lower
                : lower * 2;
        return lower is < 1 or > LongestNumber ? Fraction.Zero : new(upper, lower);
    }

    private static int? ReadAccidental(ref Cursor cursor, out bool isMicrotone)
    {
        int? alter = null;
        isMicrotone = false;
        while (cursor.Sign is '^' or '_' or '=')
        {
            alter = cursor.Sign switch
            {
                '^' => Math.Min(2, (alter ?? 0) + 1),
                '_' => Math.Max(-2, (alter ?? 0) - 1),
                _ => alter ?? 0,
            };
            cursor.Take();
        }
        // "^/f", "_3/2b": quarter tones, which no banjo has frets for.
        if (alter is not null && (cursor.Sign == '/' || char.IsAsciiDigit(cursor.Sign)))
        {
            isMicrotone = true;
            ReadTimes(ref cursor);
        }
        return alter;
    }
}
