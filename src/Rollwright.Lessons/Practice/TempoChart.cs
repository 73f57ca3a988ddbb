using System.Collections.Immutable;

namespace Rollwright.Lessons.Practice;

/// <summary>
/// The tempo that each phrase was clean at, over days, laid out to be drawn. Days stand as far apart as they are, tempos rise
/// evenly. Measures are points; y grows downwards.
/// </summary>
/// <param name="Lines">One a phrase that has a tempo, in order of their numbers.</param>
/// <param name="Tempos">Marks at the side, slowest first.</param>
/// <param name="Days">Marks below: the first day and the last; one where they are the same.</param>
public sealed record TempoChart(
    ImmutableArray<TempoLine> Lines,
    ImmutableArray<(double Y, double Tempo)> Tempos,
    ImmutableArray<(double X, DateOnly Day)> Days
)
{
    public const double Width = 480;
    public const double Height = 220;
    public const double Left = 44;
    public const double Right = Width - 76;
    public const double Top = 14;
    public const double Bottom = Height - 30;

    // So that no name of a phrase stands on another.
    private const double NameHeight = 14;

    /// <param name="works">The phrases, whose ladders say from where to where.</param>
    /// <param name="history">What was played; what has no tempo is left out.</param>
    public static TempoChart Of(ImmutableArray<PhraseWork> works, IReadOnlyCollection<PracticeRecord> history)
    {
        var reached = history
            .Where(record => record.Tempo > 0 && works.Any(work => work.Phrase.Number == record.Phrase))
            .OrderBy(record => record.Day)
            .ToList();
        if (reached.Count == 0)
            return new([], [], []);
        var slowest = Math.Min(reached.Min(record => record.Tempo), works.Min(work => work.Ladder.Start));
        var fastest = Math.Max(reached.Max(record => record.Tempo), works.Max(work => work.Ladder.Target));
        var step = StepOf(fastest - slowest);
        var low = Math.Floor(slowest / step) * step;
        var high = Math.Max(Math.Ceiling(fastest / step) * step, low + step);
        var (first, last) = (reached[0].Day, reached[^1].Day);
        var lines = reached
            .GroupBy(record => record.Phrase)
            .OrderBy(group => group.Key)
            .Select(group => new TempoLine(group.Key, [.. group.Select(record => (X(record.Day), Y(record.Tempo)))], 0))
            .ToList();
        return new(
            Named(lines),
            [
                .. Enumerable
                    .Range(0, (int)Math.Round((high - low) / step) + 1)
                    .Select(i => low + (i * step))
                    .Select(tempo => (Y(tempo), tempo)),
            ],
            first == last ? [(X(first), first)] : [(X(first), first), (X(last), last)]
        );

        double X(DateOnly day) =>
            first == last
                ? (Left + Right) / 2
                : Left + ((Right - Left) * (day.DayNumber - first.DayNumber) / (last.DayNumber - first.DayNumber));

        double Y(double tempo) => Bottom - ((Bottom - Top) * (tempo - low) / (high - low));
    }

    // At most nine marks, at numbers that are read at a glance.
    private static double StepOf(double range) =>
        new[] { 5.0, 10, 20, 50, 100 }.FirstOrDefault(step => range / step <= 7, 200);

    // Each name stands where its line ends; of those that would meet the lowest keeps its place, the others are moved up.
    private static ImmutableArray<TempoLine> Named(List<TempoLine> lines)
    {
        var free = double.PositiveInfinity;
        foreach (
            var line in lines
                .OrderByDescending(line => line.Points[^1].Y)
                .ThenByDescending(line => line.Phrase)
                .ToList()
        )
        {
            free = Math.Min(line.Points[^1].Y, free);
            lines[lines.IndexOf(line)] = line with { NameY = free };
            free -= NameHeight;
        }
        return [.. lines];
    }
}

/// <summary>The line of one phrase.</summary>
/// <param name="Phrase">Its number.</param>
/// <param name="Points">Where it goes, by day.</param>
/// <param name="NameY">Height at which its name stands, right of the lines.</param>
public sealed record TempoLine(int Phrase, ImmutableArray<(double X, double Y)> Points, double NameY);
