using System.Text;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.TextTab;

/// <summary>
/// Writes a break as the plain-text tab that players send one another: a line a string, a column a step, numbers of
/// equal width, the letters of slurs in front of the note they lead to, chords above, fingers and the count below.
/// </summary>
public static class TextTabWriter
{
    public static string Write(Break written, TextTabOptions? options = null)
    {
        var chosen = options ?? TextTabOptions.Default;
        var text = new StringBuilder();
        WriteHead(written, text);
        var layout = new TabLayout(written, chosen);
        foreach (var system in Systems.Of(written, layout, chosen.Width))
        {
            text.Append('\n');
            foreach (var line in new SystemText(written, layout, system, chosen.Marks).Lines())
                text.Append(line.TrimEnd()).Append('\n');
        }
        WriteSigns(written, text);
        return text.ToString();
    }

    private static void WriteHead(Break written, StringBuilder text)
    {
        var setting = written.Setting;
        text.Append(OneLine(written.Title)).Append('\n');
        if (written.Composer.Length > 0)
            text.Append(OneLine(written.Composer)).Append('\n');
        text.Append('\n');
        text.Append($"Tuning: {OneLine(setting.Tuning.Name)} ({OneLine(setting.Tuning.Spelling)}), strings 5 to 1\n");
        text.Append(
            setting.Capo == 0
                ? "Capo:   none\n"
                : $"Capo:   {setting.Capo}, string 5 up by as much; frets count from the capo\n"
        );
        text.Append($"Key:    {Name(setting.SoundingKey)}");
        text.Append(
            setting.Capo == 0 ? "\n" : $", fingered as {Name(setting.Position)}; chord names are those of the hands\n"
        );
        text.Append($"Time:   {written.Time}, {Name(written.Tempo)}{Name(written.Swing, written.Time)}\n");
    }

    private static void WriteSigns(Break written, StringBuilder text)
    {
        var strokes = written.Bars.SelectMany(bar => bar.Strokes).ToList();
        var signs = new List<string>();
        foreach (var kind in Enum.GetValues<SlurKind>())
        {
            if (strokes.Exists(stroke => stroke.Slur == kind))
                signs.Add($"{SlurNames.Letter(kind)} {SlurNames.Word(kind)}");
        }
        if (strokes.Exists(stroke => stroke.Right is not null))
            signs.Add("T I M thumb, index, middle");
        if (signs.Count > 0)
            text.Append('\n').AppendJoin("; ", signs).Append('\n');
    }

    private static string Name(Key key) => key.ToString();

    private static string Name(Tempo tempo)
    {
        var name =
            tempo.Unit == new Fraction(1, 2) ? "half note"
            : tempo.Unit == new Fraction(1, 4) ? "quarter note"
            : tempo.Unit == new Fraction(3, 8) ? "dotted quarter note"
            : tempo.Unit == new Fraction(1, 8) ? "eighth note"
            : $"{tempo.Unit} of a whole note";
        return $"{name} = {tempo.PerMinute:0.##}";
    }

    private static string Name(Swing? swing, TimeSignature time) =>
        swing is null ? "" : $", swung {(time.Step == new Fraction(1, 16) ? "sixteenths" : "eighths")} {swing}";

    private static string OneLine(string text) =>
        text.Any(char.IsControl) ? new([.. text.Select(sign => char.IsControl(sign) ? ' ' : sign)]) : text;
}
