using System.Globalization;
using System.Text;

namespace Rollwright.Lessons.Captions;

/// <summary>A cue: words from one moment to another.</summary>
/// <param name="From">Seconds.</param>
/// <param name="To">Seconds.</param>
/// <param name="Text">As text; lines stay lines.</param>
public sealed record Cue(double From, double To, string Text);

/// <summary>Writes WebVTT (W3C Candidate Recommendation of 2019-04-04): captions and chapters of a video.</summary>
public static class WebVtt
{
    /// <param name="note">Said once at the head, to those who open the file.</param>
    /// <param name="cues">In order of time.</param>
    public static string Write(string note, IEnumerable<Cue> cues)
    {
        ArgumentNullException.ThrowIfNull(cues);
        var text = new StringBuilder($"WEBVTT\n\nNOTE\n{Escaped(note)}\n");
        var number = 0;
        foreach (var cue in cues)
            text.Append($"\n{++number}\n{Stamp(cue.From)} --> {Stamp(cue.To)}\n{Escaped(cue.Text)}\n");
        return text.ToString();
    }

    /// <summary>"00:01:02.500".</summary>
    internal static string Stamp(double seconds)
    {
        var all = (long)Math.Round(seconds * 1000);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{all / 3_600_000:00}:{all / 60_000 % 60:00}:{all / 1000 % 60:00}.{all % 1000:000}"
        );
    }

    // An empty line would end the cue, an arrow would begin another: with > written out there is none.
    private static string Escaped(string words) =>
        string.Join(
            '\n',
            words
                .Split('\n', '\r', '\f', '\u2028', '\u2029')
                .Where(line => !string.IsNullOrWhiteSpace(line))
                .Select(line =>
                    new string([.. line.Select(sign => char.IsControl(sign) ? ' ' : sign)])
                        .Replace("&", "&amp;", StringComparison.Ordinal)
                        .Replace("<", "&lt;", StringComparison.Ordinal)
                        .Replace(">", "&gt;", StringComparison.Ordinal)
                        .Trim()
                )
        );
}
