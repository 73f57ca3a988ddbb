using System.Collections.Immutable;
using Rollwright.Lessons.Practice;

namespace Rollwright.Web.State;

/// <summary>A person's practice of the break that is shown: the plan, the exercise under way, what was reached.</summary>
public sealed class Rehearsal(IPracticeLog log, TimeProvider clock)
{
    private Made? about;

    /// <summary>Null where the break has no note.</summary>
    public PracticePlan? Plan { get; private set; }

    /// <summary>What was practised, the days before with it.</summary>
    public ImmutableArray<PracticeRecord> History { get; private set; } = [];

    /// <summary>Minutes of today's session.</summary>
    public int Minutes { get; private set; } = PracticeHabits.Usual.Minutes;

    /// <summary>The exercise under way; null for none.</summary>
    public ExerciseUnderWay? UnderWay { get; private set; }

    /// <summary>Index of its loop that was heard to its end and is not answered for; null for none.</summary>
    public int? Heard { get; private set; }

    /// <summary>How long what was reached is kept, in a sentence.</summary>
    public string Kept => log.Words;

    /// <summary>Something here is not as it was.</summary>
    public event EventHandler? Changed;

    private DateOnly Today => DateOnly.FromDateTime(clock.GetLocalNow().DateTime);

    /// <summary>Plans for a break; of another than before, what was under way is over.</summary>
    public async Task About(Made made)
    {
        ArgumentNullException.ThrowIfNull(made);
        if (about == made)
            return;
        about = made;
        History = await log.ReadAsync(made.Break);
        Begin();
    }

    /// <summary>Plans today's session anew, for so many minutes.</summary>
    public void For(int minutes)
    {
        Minutes = minutes;
        Begin();
    }

    public void TakeUp(Exercise exercise)
    {
        (UnderWay, Heard) = (ExerciseUnderWay.Of(exercise), null);
        Tell();
    }

    public void Leave()
    {
        (UnderWay, Heard) = (null, null);
        Tell();
    }

    /// <summary>A round of the player's loop was heard to its end.</summary>
    public void PassDone(int loop)
    {
        if (UnderWay is null)
            return;
        Heard = loop;
        Tell();
    }

    /// <summary>Says how the last round was, once for each that was heard; keeps it, and moves the rung.</summary>
    public async Task Answer(bool wasClean)
    {
        if (UnderWay is not { } drill || Heard is not { } loop || about is not { } made)
            return;
        var (next, played) = drill.After(loop, wasClean, Today);
        (UnderWay, Heard) = (next, null);
        foreach (var record in played)
            await log.AddAsync(made.Break, record);
        History = await log.ReadAsync(made.Break);
        Tell();
    }

    private void Begin()
    {
        (UnderWay, Heard) = (null, null);
        Plan =
            about is not { } made || made.Break.Bars.All(bar => bar.Strokes.IsEmpty)
                ? null
                : PracticePlan.Of(made.Break, PracticeHabits.Usual with { Minutes = Minutes }, History, Today);
        Tell();
    }

    private void Tell() => Changed?.Invoke(this, EventArgs.Empty);
}
