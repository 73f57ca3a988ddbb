using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Web.State.Jobs;

namespace Rollwright.Web.State;

// How what is asked for is worked out: changes at once, what is heavy in its turn among everybody's.
public sealed partial class Bench
{
    private int asked;

    // Lets go of what was asked last, while it waits or is worked on.
    private Action drop = () => { };

    /// <summary>One version of each kind of the break that is shown, where they were asked for; null while they are not there.</summary>
    public ImmutableArray<MadeVersion>? Versions { get; private set; }

    public bool IsMakingVersions { get; private set; }

    /// <summary>Works something heavy out about what is shown, in its turn and after what is under way here.</summary>
    /// <exception cref="JobException">It was not taken, or broken off.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public Task<T> Ask<T>(JobKind kind, Turn shown, Func<CancellationToken, T> work)
    {
        ArgumentNullException.ThrowIfNull(shown);
        return jobs.Run(kind, shown.Arrangement.Tune.Bars.Length, line, work);
    }

    /// <summary>Makes one version of each kind, away from the page's own thread.</summary>
    public async Task FindVersions()
    {
        if (Now is not { } now || IsMakingVersions)
            return;
        IsMakingVersions = true;
        Tell();
        Refusal = null;
        try
        {
            var made = await Ask(JobKind.Versions, now, stop => MadeVersion.AllOf(now.Break, stop));
            if (Now?.Break == now.Break)
                Versions = made;
        }
        catch (JobException no)
        {
            Refusal = (AskedAt.Versions, Problem.Refusal(no.Message, ""));
        }
        catch (OperationCanceledException)
        {
            // The button is there again, which says enough.
        }
        IsMakingVersions = false;
        Tell();
    }

    // Away from the page's own thread, so that it answers while a long tune is arranged. Where the person has asked for
    // something else meanwhile, the older answer is dropped. A change of what is shown is made at once; a whole tune, of so many
    // bars, has its turn among everybody's.
    private async Task<(Turn? Turn, Problem? Problem)> Make(Func<Turn> make, string place, int? bars = null)
    {
        var (mine, stop) = AskAnew();
        IsMaking = true;
        Tell();
        try
        {
            var answer = bars is { } whole
                ? await jobs.Run(JobKind.Arranging, whole, line, _ => Try(), stop)
                : await line.Run(Try);
            return mine == asked ? answer : (null, null);
        }
        catch (Exception no) when (no is JobException or OperationCanceledException)
        {
            return mine == asked ? (null, Problem.Refusal(WhyNot(no), place) with { IsError = false }) : (null, null);
        }

        (Turn?, Problem?) Try()
        {
            try
            {
                return mine == Volatile.Read(ref asked) ? (make(), null) : (null, null);
            }
            catch (ArrangeException no)
            {
                return (null, Problem.Refusal(no.Message, place));
            }
            catch (Exception fault)
            {
                // The page must outlive a fault of ours: the person keeps the text and what else lies on the bench.
                return (null, Problem.Fault(fault, place));
            }
        }
    }

    // Whatever was asked before is wanted no more: that is so before it is told, for it may go on by this very thread.
    private (int Mine, CancellationToken Stop) AskAnew()
    {
        var mine = ++asked;
        drop();
        var source = new CancellationTokenSource();
        drop = source.Cancel;
        return (mine, source.Token);
    }

    private static string WhyNot(Exception no) => no is JobException ? no.Message : "it was stopped; ask again";
}
