using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Advice;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Reasons;
using Rollwright.Arranging.Spots;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Tunes;
using Rollwright.Web.State.Jobs;
using Rollwright.Web.State.Licks;

namespace Rollwright.Web.State;

/// <summary>
/// What is asked about the arrangement that is shown: its spots, and, where someone wants to know, the reason of a step,
/// the terms, the advice. Worked out away from the page's own thread; null while it is.
/// </summary>
public sealed class Inquiry
{
    private readonly WorkLine line;
    private readonly LickChoice licks;
    private readonly OwnJobs jobs;

    // Of the turn asked about last, with what was found of it; only work in the line touches it.
    private (Turn Turn, Arrangement Made)? offering;

    private Turn? about;
    private int asked;
    private bool wantsTerms;
    private (Tune Tune, string? Key, int Level)? advisedOn;

    public Inquiry(WorkLine line, LickChoice licks, OwnJobs jobs)
    {
        ArgumentNullException.ThrowIfNull(licks);
        (this.line, this.licks, this.jobs) = (line, licks, jobs);
        licks.Changed += (_, _) => _ = about is { } turn ? FindSpots(turn) : Task.CompletedTask;
    }

    /// <summary>How much dearer a lick may make the break, thousandths of a plain melody note left out.</summary>
    public int Within { get; private set; } = Arrangement.UsualSpotPrice;

    public ImmutableArray<Spot>? Spots { get; private set; }

    /// <summary>First and last step of the spot that is open; null for none.</summary>
    public (int First, int Last)? Opened { get; private set; }

    /// <summary>The step that was chosen; null for none.</summary>
    public int? Step { get; private set; }

    /// <summary>The other end of what is chosen, before or behind the step; null where it is the step alone.</summary>
    public int? Until { get; private set; }

    /// <summary>The person wants what is chosen as a lick, and is led to where it is named.</summary>
    public bool AsksForLick { get; set; }

    /// <summary>First and last step of what is chosen; null for nothing.</summary>
    public (int First, int Last)? Chosen =>
        Step is { } step ? (Math.Min(step, Until ?? step), Math.Max(step, Until ?? step)) : null;

    /// <summary>The string that a typed fret is put on, 1 to 5.</summary>
    public int String { get; private set; } = 3;

    /// <summary>Of every step.</summary>
    public ImmutableArray<StepReason>? Reasons { get; private set; }

    public StepReason? Reason => Step is { } step && Reasons is { } reasons ? reasons[step] : null;

    public ImmutableArray<(Term Term, int Price)>? Terms { get; private set; }

    public TuneAdvice? Advice { get; private set; }

    public bool IsAdvising { get; private set; }

    /// <summary>Why there is no advice; null where nothing is in the way.</summary>
    public Problem? AdviceProblem { get; private set; }

    /// <summary>Something was found; called on any thread.</summary>
    public event EventHandler? Changed;

    /// <summary>Another arrangement is shown. The chosen step and the open spot stay where it has them.</summary>
    public void About(Turn? turn)
    {
        var steps = turn?.Arrangement.Grid.Steps.Length ?? 0;
        if (turn is null || about is null || about.Arrangement.Grid.Steps.Length != steps)
            (Step, Until, Opened) = (null, null, null);
        about = turn;
        (Spots, Reasons, Terms) = (null, null, null);
        if (turn is null)
            return;
        _ = FindSpots(turn);
        _ = FindReasons(turn);
    }

    public Task Allow(int within)
    {
        Within = within;
        Spots = null;
        return about is { } turn ? FindSpots(turn) : Task.CompletedTask;
    }

    public void Open((int First, int Last)? spot)
    {
        Opened = spot;
        Tell();
    }

    /// <summary>Chooses a step of the grid, or none.</summary>
    public Task Choose(int? step)
    {
        if (about is not { } turn)
            return Task.CompletedTask;
        Step = step is { } wanted ? Math.Clamp(wanted, 0, turn.Arrangement.Grid.Steps.Length - 1) : null;
        Until = null;
        Tell();
        return FindReasons(turn);
    }

    /// <summary>Chooses the steps from the chosen one to another.</summary>
    public void Extend(int until)
    {
        if (about is not { } turn || Step is not { } step)
            return;
        var other = Math.Clamp(until, 0, turn.Arrangement.Grid.Steps.Length - 1);
        Until = other == step ? null : other;
        Tell();
    }

    /// <summary>Chooses the steps from one to another.</summary>
    public void Reach(int first, int last)
    {
        Step = first;
        Extend(last);
    }

    public void ChooseString(int banjoString)
    {
        String = Math.Clamp(banjoString, 1, Neck.Strings);
        Tell();
    }

    public Task WantTerms(bool wants)
    {
        wantsTerms = wants;
        return about is { } turn ? FindReasons(turn) : Task.CompletedTask;
    }

    /// <summary>Compares settings and styles, whatever setting is wished: only key and level bind the advice.</summary>
    public async Task Advise(Tune tune, Wishes wishes)
    {
        ArgumentNullException.ThrowIfNull(wishes);
        var asked = (tune, wishes.Key, wishes.Level);
        // What was refused may be asked again.
        if (advisedOn == asked && AdviceProblem is null)
            return;
        advisedOn = asked;
        (Advice, AdviceProblem, IsAdvising) = (null, null, true);
        Tell();
        var options = TurnMaker.OptionsOf(tune, new(Key: wishes.Key, Level: wishes.Level));
        // Not in the bench's line: it asks of nothing that is shown, and takes long enough for someone to go on working.
        var (advice, problem) = await Compare(tune, options);
        if (advisedOn != asked)
            return;
        (Advice, AdviceProblem, IsAdvising) = (advice, problem, false);
        Tell();
    }

    /// <summary>Whether the advice at hand is about this tune, key and level.</summary>
    public bool HasAdviceOn(Tune tune, Wishes wishes) =>
        advisedOn is { } on && on == (tune, wishes.Key, wishes.Level) && (Advice ?? (object?)AdviceProblem) is not null;

    private async Task<(TuneAdvice?, Problem?)> Compare(Tune tune, ArrangeOptions options)
    {
        try
        {
            return (await jobs.Run(JobKind.Advice, tune.Bars.Length, _ => Arranger.Advise(tune, options)), null);
        }
        catch (OperationCanceledException)
        {
            return (null, Problem.Refusal("it was stopped; compare again", tune.Title));
        }
        catch (Exception no) when (no is ArrangeException or JobException)
        {
            return (null, Problem.Refusal(no.Message, tune.Title));
        }
        catch (Exception fault)
        {
            return (null, Problem.Fault(fault, tune.Title));
        }
    }

    private async Task FindSpots(Turn turn)
    {
        var mine = ++asked;
        var spots = await line.Run<ImmutableArray<Spot>?>(() =>
        {
            if (turn != about || mine != Volatile.Read(ref asked))
                return null;
            var made = offering is var (known, its) && known == turn ? its : turn.Arrangement;
            offering = (turn, made = made.Offering(licks.Own));
            return made.Spots(Within, licks.Offers);
        });
        if (turn != about || mine != asked || spots is null)
            return;
        Spots = spots;
        // What no lick fits any more is no spot to stand open.
        if (!spots.Value.Any(spot => (spot.Best[0].Place.Step, spot.Best[0].Place.LastStep) == Opened))
            Opened = null;
        Tell();
    }

    // Dearer than the spots, and only for those who ask.
    private async Task FindReasons(Turn turn)
    {
        if (Reasons is not null || !(wantsTerms || Step is not null))
            return;
        var found = await line.Run(() => turn == about ? (turn.Arrangement.Reasons, turn.Arrangement.Terms) : default);
        if (turn != about || found.Reasons.IsDefault)
            return;
        (Reasons, Terms) = (found.Reasons, found.Terms);
        Tell();
    }

    private void Tell() => Changed?.Invoke(this, EventArgs.Empty);
}
