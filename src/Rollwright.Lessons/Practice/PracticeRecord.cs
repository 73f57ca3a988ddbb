namespace Rollwright.Lessons.Practice;

/// <summary>What was played of one phrase on one day.</summary>
/// <param name="Day">The day.</param>
/// <param name="Phrase">Number of the phrase.</param>
/// <param name="Tempo">Units a minute of the fastest rung that was played clean as often as asked; 0 where none was.</param>
/// <param name="Clean">Clean passes in all.</param>
/// <param name="Spoiled">Passes with a mistake in all.</param>
public sealed record PracticeRecord(DateOnly Day, int Phrase, double Tempo, int Clean, int Spoiled)
{
    /// <summary>The same day and phrase with what was played besides.</summary>
    public PracticeRecord With(PracticeRecord more)
    {
        ArgumentNullException.ThrowIfNull(more);
        if ((more.Day, more.Phrase) != (Day, Phrase))
            throw new ArgumentException("Another day or another phrase is a record of its own.", nameof(more));
        return this with
        {
            Tempo = Math.Max(Tempo, more.Tempo),
            Clean = Clean + more.Clean,
            Spoiled = Spoiled + more.Spoiled,
        };
    }
}
