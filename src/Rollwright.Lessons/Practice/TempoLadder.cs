namespace Rollwright.Lessons.Practice;

/// <summary>
/// Tempos from slow to the target. One goes up after clean passes in a row and down after spoiled ones (Duke, Simmons and
/// Cash 2009: the share of complete correct trials told who played best, not their number).
/// </summary>
/// <param name="Start">Units of the break's tempo a minute, more than 0, at most the target.</param>
/// <param name="Target">Units a minute.</param>
/// <param name="Step">Units a minute from rung to rung, more than 0.</param>
/// <param name="Clean">Clean passes in a row before a rung up, at least 1.</param>
/// <param name="Spoiled">Spoiled passes in a row before a rung down, at least 1.</param>
public sealed record TempoLadder(double Start, double Target, double Step, int Clean, int Spoiled)
{
    /// <summary>Nothing slower than this is set: below it a beat is no longer felt (assumption).</summary>
    public const double Slowest = 20;

    /// <param name="comfortable">Units a minute up to which the bars are comfortable; null where nothing asks for time.</param>
    /// <param name="target">Units a minute that are asked for, more than 0.</param>
    /// <param name="habits">How the person practises.</param>
    public static TempoLadder Of(double? comfortable, double target, PracticeHabits habits)
    {
        ArgumentNullException.ThrowIfNull(habits);
        if (target is not (> 0 and <= 1_000))
            throw new ArgumentOutOfRangeException(
                nameof(target),
                "A target tempo is more than 0 and at most 1000 a minute."
            );
        var start = habits.Start * Math.Min(comfortable ?? target, target);
        start = Math.Clamp(Math.Round(start), Math.Min(Slowest, target), target);
        return new(start, target, Math.Max(1, Math.Round(habits.Step * target)), habits.Clean, habits.Spoiled);
    }

    public Rung First => new(Start, 0, 0, IsDone: false);

    /// <summary>A rung at a tempo, as near as the ladder has it.</summary>
    public Rung At(double tempo) => new(Math.Clamp(tempo, Start, Target), 0, 0, IsDone: false);

    /// <summary>Where one stands after one more pass.</summary>
    public Rung After(Rung rung, bool wasClean)
    {
        ArgumentNullException.ThrowIfNull(rung);
        var (clean, spoiled) = wasClean ? (rung.Clean + 1, 0) : (0, rung.Spoiled + 1);
        if (clean >= Clean)
            return rung.Tempo >= Target
                ? rung with
                {
                    Clean = clean,
                    Spoiled = 0,
                    IsDone = true,
                }
                : new(Math.Min(Target, rung.Tempo + Step), 0, 0, IsDone: false);
        if (spoiled >= Spoiled)
            return new(Math.Max(Start, rung.Tempo - Step), 0, 0, IsDone: false);
        return rung with { Clean = clean, Spoiled = spoiled };
    }
}

/// <summary>Where one stands on a ladder.</summary>
/// <param name="Tempo">Units a minute of the next pass.</param>
/// <param name="Clean">Clean passes in a row at this tempo.</param>
/// <param name="Spoiled">Spoiled passes in a row at this tempo.</param>
/// <param name="IsDone">The target was played clean as often as asked.</param>
public sealed record Rung(double Tempo, int Clean, int Spoiled, bool IsDone);
