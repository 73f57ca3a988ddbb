using Rollwright.Music.Pitches;

namespace Rollwright.Music.Keys;

/// <summary>A tonic and a mode.</summary>
public readonly record struct Key(PitchName Tonic, Mode Mode = Mode.Major)
{
    // Fifths that a mode lies below the major key of the same tonic.
    private static readonly int[] FifthsBelowMajor = [0, 1, 2, 3, 4, 5, -1];
    private static readonly int[] MajorScale = [0, 2, 4, 5, 7, 9, 11];

    /// <summary>Sharps (positive) or flats (negative) of the key signature; -7 to 7 in practice.</summary>
    public int Fifths => Tonic.Fifths - FifthsBelowMajor[(int)Mode];

    /// <summary>The alteration that the key signature gives a letter.</summary>
    public int AlterOf(Letter letter)
    {
        // The name of this letter within the seven consecutive fifths of the signature.
        var natural = new PitchName(letter).Fifths;
        var lowest = Fifths - 1;
        return (int)Math.Ceiling((lowest - natural) / 7.0);
    }

    /// <summary>Whether a pitch class (0–11) belongs to the scale.</summary>
    public bool Contains(int pitchClass)
    {
        var degree = (((pitchClass - PitchClassOfMajorTonic) % 12) + 12) % 12;
        return Array.IndexOf(MajorScale, degree) >= 0;
    }

    /// <summary>Spells a pitch class: scale notes as the signature does, others nearest on the line of fifths.</summary>
    public PitchName Spell(int pitchClass)
    {
        // The window of twelve fifths that holds the scale: three steps to the flat side of the signature's place, eight to the sharp.
        var first = Fifths - 3;
        for (var fifths = first; fifths < first + 12; fifths++)
        {
            var name = PitchName.FromFifths(fifths);
            if (name.PitchClass == (((pitchClass % 12) + 12) % 12))
                return name;
        }
        throw new ArgumentOutOfRangeException(nameof(pitchClass));
    }

    /// <summary>The same mode, its tonic moved by semitones, spelled with the fewest signs.</summary>
    public Key Transpose(int semitones)
    {
        var target = (((Tonic.PitchClass + semitones) % 12) + 12) % 12;
        var mode = Mode;
        return Enumerable
            .Range(-9, 20)
            .Select(PitchName.FromFifths)
            .Where(name => name.PitchClass == target)
            .Select(name => new Key(name, mode))
            .OrderBy(key => Math.Abs(key.Fifths))
            .ThenByDescending(key => key.Fifths)
            .First();
    }

    /// <summary>"G major", "A mixolydian".</summary>
    public override string ToString() => $"{Tonic} {Mode.ToString().ToLowerInvariant()}";

    private int PitchClassOfMajorTonic => PitchName.FromFifths(Fifths).PitchClass;
}
