namespace Rollwright.Music.Pitches;

/// <summary>A spelled note without its octave: F♯ is another name than G♭.</summary>
/// <param name="Letter">C to B.</param>
/// <param name="Alter">Semitones up (sharps) or down (flats), -2 to 2.</param>
public readonly record struct PitchName(Letter Letter, int Alter = 0)
{
    private static readonly int[] Naturals = [0, 2, 4, 5, 7, 9, 11];

    /// <summary>Semitones above C, 0 to 11.</summary>
    public int PitchClass => (((Naturals[(int)Letter] + Alter) % 12) + 12) % 12;

    /// <summary>Semitones of the natural letter above C: 0, 2, 4, 5, 7, 9, 11.</summary>
    public static int NaturalOf(Letter letter) => Naturals[(int)letter];

    /// <summary>
    /// Place on the line of fifths, F = -1, C = 0, G = 1, … F♯ = 6, B♭ = -2. Transposing by spelled intervals is
    /// adding on this line.
    /// </summary>
    public int Fifths => LetterFifths[(int)Letter] + (7 * Alter);

    private static readonly int[] LetterFifths = [0, 2, 4, -1, 1, 3, 5];

    /// <summary>The name at a place on the line of fifths.</summary>
    public static PitchName FromFifths(int fifths)
    {
        var alter = (int)Math.Floor((fifths + 1) / 7.0);
        var letter = Array.IndexOf(LetterFifths, fifths - (7 * alter));
        return new((Letter)letter, alter);
    }

    /// <summary>Reads "F#", "Bb", "C" (ASCII or ♯ ♭ signs); null where it is no name.</summary>
    public static PitchName? Parse(ReadOnlySpan<char> text)
    {
        if (text.IsEmpty)
            return null;
        var letter = "CDEFGAB".IndexOf(char.ToUpperInvariant(text[0]));
        if (letter < 0)
            return null;
        var alter = 0;
        foreach (var sign in text[1..])
        {
            if (sign is '#' or '♯')
                alter++;
            else if (sign is 'b' or '♭')
                alter--;
            else
                return null;
        }
        return Math.Abs(alter) > 2 ? null : new((Letter)letter, alter);
    }

    /// <summary>ASCII: "F#", "Bb".</summary>
    public override string ToString() => Letter + (Alter < 0 ? new string('b', -Alter) : new string('#', Alter));
}
