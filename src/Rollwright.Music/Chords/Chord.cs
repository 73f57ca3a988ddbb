using System.Collections.Immutable;
using System.Text;
using Rollwright.Music.Pitches;

namespace Rollwright.Music.Chords;

/// <summary>A chord symbol: root, kind and, where it is not the root, the bass.</summary>
public readonly record struct Chord(PitchName Root, ChordQuality Quality = ChordQuality.Major, PitchName? Bass = null)
{
    private static readonly (string Suffix, ChordQuality Quality, int[] Tones)[] Kinds =
    [
        ("", ChordQuality.Major, [0, 4, 7]),
        ("m", ChordQuality.Minor, [0, 3, 7]),
        ("7", ChordQuality.DominantSeventh, [0, 4, 7, 10]),
        ("m7", ChordQuality.MinorSeventh, [0, 3, 7, 10]),
        ("maj7", ChordQuality.MajorSeventh, [0, 4, 7, 11]),
        ("dim", ChordQuality.Diminished, [0, 3, 6]),
        ("dim7", ChordQuality.DiminishedSeventh, [0, 3, 6, 9]),
        ("m7b5", ChordQuality.HalfDiminished, [0, 3, 6, 10]),
        ("aug", ChordQuality.Augmented, [0, 4, 8]),
        ("6", ChordQuality.Sixth, [0, 4, 7, 9]),
        ("m6", ChordQuality.MinorSixth, [0, 3, 7, 9]),
        ("9", ChordQuality.Ninth, [0, 4, 7, 10, 2]),
        ("sus4", ChordQuality.SuspendedFourth, [0, 5, 7]),
        ("sus2", ChordQuality.SuspendedSecond, [0, 2, 7]),
        ("5", ChordQuality.Fifth, [0, 7]),
    ];

    // Other spellings of the same kinds, as found in open collections.
    private static readonly Dictionary<string, string> Aliases = new(StringComparer.Ordinal)
    {
        ["M"] = "",
        ["maj"] = "",
        ["min"] = "m",
        ["-"] = "m",
        ["min7"] = "m7",
        ["-7"] = "m7",
        ["M7"] = "maj7",
        ["d"] = "dim",
        ["o"] = "dim",
        ["°"] = "dim",
        ["o7"] = "dim7",
        ["°7"] = "dim7",
        ["+"] = "aug",
        ["a"] = "aug",
        ["sus"] = "sus4",
        ["4"] = "sus4",
        ["7sus4"] = "sus4",
        ["11"] = "9",
        ["13"] = "9",
        ["add9"] = "",
        ["add2"] = "",
        ["7b9"] = "7",
        ["m9"] = "m7",
        ["maj9"] = "maj7",
    };

    /// <summary>Pitch classes of the chord, root first, without the bass.</summary>
    public ImmutableArray<int> PitchClasses
    {
        get
        {
            var root = Root.PitchClass;
            return [.. Kind.Tones.Select(tone => (root + tone) % 12)];
        }
    }

    /// <summary>Whether both have the same first three tones, whatever is added to them and in the bass.</summary>
    public bool HasTriadOf(Chord other) =>
        Root.PitchClass == other.Root.PitchClass && (Quality == other.Quality || Triad.SequenceEqual(other.Triad));

    private ReadOnlySpan<int> Triad => Kind.Tones.AsSpan(0, Math.Min(3, Kind.Tones.Length));

    /// <summary>Whether a pitch class (any whole number, taken modulo 12) is a tone of the chord or its bass.</summary>
    public bool Contains(int pitch)
    {
        var pitchClass = ((pitch % 12) + 12) % 12;
        if (Bass?.PitchClass == pitchClass)
            return true;
        foreach (var tone in Kind.Tones)
        {
            if ((Root.PitchClass + tone) % 12 == pitchClass)
                return true;
        }
        return false;
    }

    /// <summary>The suffix after the root: "", "m", "7", "maj7", …</summary>
    public string Suffix => Kind.Suffix;

    /// <summary>Moves root and bass by the same spelled interval, given as places on the line of fifths.</summary>
    public Chord TransposeFifths(int fifths) =>
        new(
            PitchName.FromFifths(Root.Fifths + fifths),
            Quality,
            Bass is { } bass ? PitchName.FromFifths(bass.Fifths + fifths) : null
        );

    /// <summary>Reads a symbol such as "G", "Em7", "D7/F#", "Bb"; null where it is none.</summary>
    public static Chord? Parse(string text)
    {
        var symbol = text.Trim();
        if (symbol.Length == 0 || symbol[0] is < 'A' or > 'G')
            return null;
        var slash = symbol.IndexOf('/', StringComparison.Ordinal);
        PitchName? bass = null;
        if (slash >= 0)
        {
            bass = PitchName.Parse(symbol.AsSpan(slash + 1));
            symbol = symbol[..slash];
        }
        var rootLength = symbol.Length > 1 && symbol[1] is '#' or 'b' or '♯' or '♭' ? 2 : 1;
        if (PitchName.Parse(symbol.AsSpan(0, Math.Min(rootLength, symbol.Length))) is not { } root)
            return null;
        var suffix = symbol[Math.Min(rootLength, symbol.Length)..]
            .Replace("(", "", StringComparison.Ordinal)
            .Replace(")", "", StringComparison.Ordinal);
        suffix = Aliases.GetValueOrDefault(suffix, suffix);
        foreach (var kind in Kinds)
        {
            if (kind.Suffix == suffix)
                return new(root, kind.Quality, bass == root ? null : bass);
        }
        return null;
    }

    public override string ToString()
    {
        var text = new StringBuilder().Append(Root).Append(Kind.Suffix);
        if (Bass is { } bass)
            text.Append('/').Append(bass);
        return text.ToString();
    }

    private (string Suffix, ChordQuality Quality, int[] Tones) Kind => Kinds[(int)Quality];
}
