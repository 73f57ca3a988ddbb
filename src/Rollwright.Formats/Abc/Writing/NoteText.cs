using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.Abc.Writing;

/// <summary>A note as ABC 2.1 writes it, sections 4.1 (pitch) and 4.3 (length).</summary>
internal static class NoteText
{
    /// <summary>Letter and octave without an accidental: C4 is C, C5 is c; an octave more is ' and an octave less is a comma.</summary>
    public static string Name(Pitch pitch) =>
        pitch.Octave >= 5
            ? char.ToLowerInvariant($"{pitch.Name.Letter}"[0]) + new string('\'', pitch.Octave - 5)
            : pitch.Name.Letter + new string(',', Math.Max(0, 4 - pitch.Octave));

    /// <summary>"__" to "^^".</summary>
    public static string Accidental(int alter) =>
        alter switch
        {
            -2 => "__",
            -1 => "_",
            0 => "=",
            1 => "^",
            _ => "^^",
        };

    /// <summary>A length in units of L: "" for one, "2", "3/2", "/2".</summary>
    public static string Times(Fraction times) =>
        times == new Fraction(1) ? ""
        : times.Denominator == 1 ? $"{times.Numerator}"
        : times.Numerator == 1 ? $"/{times.Denominator}"
        : $"{times.Numerator}/{times.Denominator}";
}
