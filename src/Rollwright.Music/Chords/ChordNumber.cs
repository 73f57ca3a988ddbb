using Rollwright.Music.Pitches;

namespace Rollwright.Music.Chords;

/// <summary>How chords are numbered.</summary>
public enum NumberStyle
{
    /// <summary>1, 4, 5; the kind of chord follows: 2m, 5 7.</summary>
    Arabic,

    /// <summary>I, IV, V; minor and diminished chords in small letters: ii, vi.</summary>
    Roman,
}

/// <summary>
/// A chord by its place in the key, so that it can be played in any other: degrees of the major scale on the tonic, in every mode
/// (common practice, no source).
/// </summary>
/// <param name="Degree">"1", "b7", "ii".</param>
/// <param name="Kind">"m", "7"; what the letters of a Roman number say is left out.</param>
public readonly record struct ChordNumber(string Degree, string Kind)
{
    private static readonly string[] Numerals = ["I", "II", "III", "IV", "V", "VI", "VII"];

    // Degrees on the line of fifths from the tonic up: 1 5 2 6 3 7, and 4 below it.
    private static readonly int[] Degrees = [1, 5, 2, 6, 3, 7, 4];

    public static ChordNumber Of(Chord chord, PitchName tonic, NumberStyle style)
    {
        var (degree, alter) = DegreeOf(chord.Root.Fifths - tonic.Fifths);
        var sign = alter < 0 ? new string('b', -alter) : new string('#', alter);
        if (style == NumberStyle.Arabic)
            return new($"{sign}{degree}", chord.Suffix);
        var isSmall =
            chord.Quality
            is ChordQuality.Minor
                or ChordQuality.MinorSeventh
                or ChordQuality.MinorSixth
                or ChordQuality.Diminished
                or ChordQuality.DiminishedSeventh
                or ChordQuality.HalfDiminished;
        var numeral = Numerals[degree - 1];
        var kind = chord.Quality switch
        {
            ChordQuality.Minor => "",
            ChordQuality.MinorSeventh => "7",
            ChordQuality.MinorSixth => "6",
            _ => chord.Suffix,
        };
        return new(sign + (isSmall ? numeral.ToLowerInvariant() : numeral), kind);
    }

    public override string ToString() => Degree + Kind;

    private static (int Degree, int Alter) DegreeOf(int fifths)
    {
        var alter = (int)Math.Floor((fifths + 1) / 7.0);
        var within = fifths - (7 * alter);
        return (Degrees[within < 0 ? 6 : within], alter);
    }
}
