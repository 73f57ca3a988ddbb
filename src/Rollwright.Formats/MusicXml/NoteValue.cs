using Rollwright.Music.Metre;

namespace Rollwright.Formats.MusicXml;

/// <summary>How a length is written: a note type, dots, and a tuplet's ratio.</summary>
/// <param name="Type">Of MusicXML, "eighth"; null for a length that no sign stands for.</param>
/// <param name="Dots">0 to 2.</param>
/// <param name="Actual">Notes of a tuplet, 1 where it is none.</param>
/// <param name="Normal">Notes in whose time they are played.</param>
internal readonly record struct NoteValue(string? Type, int Dots, int Actual, int Normal)
{
    private static readonly (string Type, Fraction Length)[] Types =
    [
        ("breve", new(2)),
        ("whole", new(1)),
        ("half", new(1, 2)),
        ("quarter", new(1, 4)),
        ("eighth", new(1, 8)),
        ("16th", new(1, 16)),
        ("32nd", new(1, 32)),
        ("64th", new(1, 64)),
        ("128th", new(1, 128)),
        ("256th", new(1, 256)),
        ("512th", new(1, 512)),
        ("1024th", new(1, 1024)),
    ];

    public bool IsTuplet => Actual > 1;

    /// <summary>Beams or flags: 1 for an eighth.</summary>
    public int Beams
    {
        get
        {
            var type = Type;
            return Math.Max(0, Array.FindIndex(Types, row => row.Type == type) - 3);
        }
    }

    /// <summary>Whole notes of a type by its name; null where there is none.</summary>
    public static Fraction? LengthOf(string type)
    {
        foreach (var (name, length) in Types)
        {
            if (name == type)
                return length;
        }
        return null;
    }

    /// <summary>The single sign for a length; null where there is none.</summary>
    public static NoteValue? Of(Fraction length)
    {
        var (actual, normal) = RatioOf(length);
        if (actual == 0)
            return null;
        var written = length * new Fraction(actual, normal);
        foreach (var (type, plain) in Types)
        {
            if (written == plain)
                return new(type, 0, actual, normal);
            if (written == plain * new Fraction(3, 2))
                return new(type, 1, actual, normal);
            if (written == plain * new Fraction(7, 4))
                return new(type, 2, actual, normal);
        }
        return null;
    }

    /// <summary>
    /// Parts a length into signs that are tied: one where one is enough; else parted at a beat, so that the eye finds
    /// it, and by the largest sign that fits. A length without any sign stays whole, without a type.
    /// </summary>
    /// <param name="at">Whole notes from the start of the full bar.</param>
    /// <param name="length">Whole notes.</param>
    /// <param name="beat">Whole notes.</param>
    public static List<(Fraction Length, NoteValue Value)> Split(Fraction at, Fraction length, Fraction beat)
    {
        var pieces = new List<(Fraction, NoteValue)>();
        var left = length;
        while (left > Fraction.Zero)
        {
            if (Of(left) is { } whole)
            {
                pieces.Add((left, whole));
                return pieces;
            }
            var toBeat = beat - (at % beat);
            var piece =
                left > toBeat && Of(toBeat) is not null && Of(left - toBeat) is not null ? toBeat : Largest(left);
            if (piece == Fraction.Zero)
            {
                pieces.Add((left, new(null, 0, 1, 1)));
                return pieces;
            }
            pieces.Add((piece, Of(piece)!.Value));
            at += piece;
            left -= piece;
        }
        return pieces;
    }

    private static Fraction Largest(Fraction length)
    {
        var (actual, normal) = RatioOf(length);
        if (actual == 0)
            return Fraction.Zero;
        foreach (var (_, plain) in Types)
        {
            var sign = plain * new Fraction(normal, actual);
            if (sign <= length)
                return sign;
        }
        return Fraction.Zero;
    }

    // The odd part of the denominator names the tuplet: thirds are three in the time of two.
    private static (int Actual, int Normal) RatioOf(Fraction length)
    {
        var odd = length.Denominator;
        while (odd % 2 == 0)
            odd /= 2;
        return odd switch
        {
            1 => (1, 1),
            3 => (3, 2),
            5 => (5, 4),
            7 => (7, 4),
            9 => (9, 8),
            _ => (0, 0),
        };
    }
}
