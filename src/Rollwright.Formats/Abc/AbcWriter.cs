using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc.Writing;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc;

/// <summary>
/// Writes ABC 2.1: a tune with its chords, repeats, endings and parts; of a break the notes that sound, behind the tune
/// that it was made from. Strings, fingers and slurs have no place in the format. What is written leans on no default that
/// programs understand differently: repeats have a start, an accidental is written again wherever it could be in doubt, and
/// a section that is played three times is written out (abc2midi does not know <c>::|</c>).
/// </summary>
public static class AbcWriter
{
    // Short names of the modes, in the order of Mode.
    private static readonly string[] Modes = ["", "mix", "dor", "m", "phr", "loc", "lyd"];

    /// <summary>One tune.</summary>
    /// <exception cref="ArgumentException">The tune has no bar.</exception>
    public static string Write(Tune tune)
    {
        var text = new StringBuilder("%abc-2.1\n");
        Append(text, tune, tune.Number);
        return text.ToString();
    }

    /// <summary>
    /// The notes that a break sounds, as the tune of number 1; behind it, as number 2, the tune itself where the break holds it.
    /// </summary>
    /// <exception cref="ArgumentException">The break has no bar.</exception>
    public static string Write(Break played)
    {
        var text = new StringBuilder("%abc-2.1\n");
        Append(text, SoundingTune.Of(played), 1, played);
        if (played.Tune is { } tune)
        {
            text.Append('\n');
            Append(text, tune, 2);
        }
        return text.ToString();
    }

    private static void Append(StringBuilder text, Tune tune, int number, Break? played = null)
    {
        if (tune.Bars.IsEmpty)
            throw new ArgumentException("A tune has at least one bar.", nameof(tune));
        text.Append(CultureInfo.InvariantCulture, $"X:{number}\n");
        Line(text, 'T', tune.Title);
        foreach (var other in tune.OtherTitles)
            Line(text, 'T', other);
        Line(text, 'C', tune.Composer);
        Line(text, 'R', tune.Rhythm);
        if (played is { Setting: var setting })
            Line(
                text,
                'N',
                $"five-string banjo, {setting.Tuning.Name} ({setting.Tuning.Spelling})"
                    + (setting.Capo == 0 ? "" : $", capo {setting.Capo}")
            );
        text.Append(CultureInfo.InvariantCulture, $"M:{tune.Time}\nL:{tune.Time.Step}\n");
        if (tune.Tempo is { } tempo)
            text.Append(CultureInfo.InvariantCulture, $"Q:{tempo.Unit}={tempo.PerMinute:0.###}\n");
        if (played is not null)
            text.Append(CultureInfo.InvariantCulture, $"%%MIDI program {Midi.MidiWriter.BanjoProgram}\n");
        text.Append($"K:{(tune.IsKeyGiven ? Name(tune.Key) : "none")}\n");
        text.Append(new AbcBody(HasThreefold(tune) ? tune.WrittenOut() : tune).Write());
    }

    internal static string Name(Key key) => key.Tonic + Modes[(int)key.Mode];

    private static bool HasThreefold(Tune tune) => tune.Bars.Any(bar => bar.Marks.RepeatEnd > 2);

    private static void Line(StringBuilder text, char field, string value)
    {
        if (value.Length > 0)
            text.Append(field).Append(':').Append(TextString.Write(value)).Append('\n');
    }
}
