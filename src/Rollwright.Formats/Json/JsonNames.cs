using Rollwright.Banjo.Strokes;
using Rollwright.Music.Chords;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Formats.Json;

/// <summary>How single values are spelled in JSON, and read back; reading gives null where the text is none.</summary>
internal static class JsonNames
{
    public const string Format = "rollwright break";

    /// <summary>Raised when a file of the new form could be misread by a program that knows only the old one.</summary>
    public const int Version = 1;

    private static readonly (SlurKind Kind, string Name)[] Slurs =
    [
        (SlurKind.Slide, "slide"),
        (SlurKind.HammerOn, "hammer-on"),
        (SlurKind.PullOff, "pull-off"),
        (SlurKind.Choke, "choke"),
    ];

    public static string Of(SlurKind kind) => Array.Find(Slurs, row => row.Kind == kind).Name;

    public static SlurKind? Slur(string name)
    {
        foreach (var row in Slurs)
        {
            if (row.Name == name)
                return row.Kind;
        }
        return null;
    }

    /// <summary>"3/8" or "1"; no finer than the grid of the readers, so that sums stay exact.</summary>
    public static Fraction? Fraction(string text)
    {
        var slash = text.IndexOf('/', StringComparison.Ordinal);
        var lower = 1L;
        if (
            !long.TryParse(slash < 0 ? text : text[..slash], out var upper)
            || (slash >= 0 && !long.TryParse(text.AsSpan(slash + 1), out lower))
            || lower is < 1 or > Abc.AbcLimits.Grid
            || Math.Abs(upper) > 64 * Abc.AbcLimits.Grid
        )
            return null;
        var value = new Fraction(upper, lower);
        return Abc.AbcLimits.Grid % value.Denominator == 0 ? value : null;
    }

    public static TimeSignature? Time(string text) =>
        text.Contains('/', StringComparison.Ordinal) ? Abc.MetreField.Read(text) : null;

    /// <summary>"A mixolydian".</summary>
    public static Key? Key(string text)
    {
        var parts = text.Split(' ');
        return
            parts.Length == 2
            && PitchName.Parse(parts[0]) is { } tonic
            && Enum.TryParse<Mode>(parts[1], ignoreCase: true, out var mode)
            && Enum.IsDefined(mode)
            ? new(tonic, mode)
            : null;
    }

    /// <summary>"F#4".</summary>
    public static Pitch? Pitch(string text)
    {
        var end = text.AsSpan().LastIndexOfAny('#', 'b') + 1;
        end = Math.Max(end, 1);
        return
            text.Length > end
            && PitchName.Parse(text.AsSpan(0, end)) is { } name
            && int.TryParse(text.AsSpan(end), out var octave)
            && octave is >= -1 and <= 9
            ? new(name, octave)
            : null;
    }

    /// <summary>"Em7", "D/F#": the exact spelling that a chord gives of itself.</summary>
    public static Chord? Chord(string text)
    {
        var slash = text.IndexOf('/', StringComparison.Ordinal);
        PitchName? bass = null;
        if (slash >= 0 && (bass = PitchName.Parse(text.AsSpan(slash + 1))) is null)
            return null;
        var symbol = slash < 0 ? text : text[..slash];
        var end = 1;
        while (end < symbol.Length && symbol[end] is '#' or 'b')
            end++;
        if (symbol.Length == 0 || PitchName.Parse(symbol.AsSpan(0, end)) is not { } root)
            return null;
        foreach (var quality in Enum.GetValues<ChordQuality>())
        {
            var chord = new Chord(root, quality, bass);
            if (chord.Suffix == symbol[end..])
                return chord;
        }
        return null;
    }
}
