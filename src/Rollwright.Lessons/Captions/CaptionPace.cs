namespace Rollwright.Lessons.Captions;

/// <summary>How much can be read of a caption while something is watched. The usual values are common practice, no source.</summary>
/// <param name="PerSecond">Characters in a second, blanks with them: 15 to 17 for grown-ups.</param>
/// <param name="Line">Characters in a line.</param>
/// <param name="Lines">Lines at a time.</param>
/// <param name="Least">Seconds; what is shown for less is not read, so a bar that is shorter shares a caption with the next.</param>
public sealed record CaptionPace(double PerSecond = 17, int Line = 40, int Lines = 2, double Least = 1)
{
    public static CaptionPace Usual { get; } = new();

    // Times are written to the thousandth.
    private const double Rounding = 0.002;

    /// <summary>Whether words can be read in some seconds.</summary>
    public bool Fits(string words, double seconds) => words.Length <= PerSecond * (seconds - Rounding);

    /// <summary>Words as cues of so many lines, one after the other, each as long as its words need of the time.</summary>
    /// <param name="words">Not empty; blanks may become line ends.</param>
    /// <param name="from">Seconds.</param>
    /// <param name="to">Seconds.</param>
    public IEnumerable<Cue> Cues(string words, double from, double to)
    {
        var cues = Wrapped(words).Chunk(Lines).Select(lines => string.Join('\n', lines)).ToList();
        var (all, before) = (cues.Sum(cue => cue.Length), 0);
        foreach (var cue in cues)
        {
            var start = from + ((to - from) * before / all);
            before += cue.Length;
            yield return new(start, from + ((to - from) * before / all), cue);
        }
    }

    // A word that is longer than a line has one of its own.
    private List<string> Wrapped(string words)
    {
        var lines = new List<string>();
        foreach (var word in words.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            if (lines.Count > 0 && lines[^1].Length + 1 + word.Length <= Line)
                lines[^1] += " " + word;
            else
                lines.Add(word);
        }
        return lines;
    }
}
