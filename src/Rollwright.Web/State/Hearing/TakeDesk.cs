using Rollwright.Audio;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening;
using Rollwright.Listening.Banjos;
using Rollwright.Listening.Beside;
using Rollwright.Listening.Beside.Answers;
using Rollwright.Listening.Beside.Words;
using Rollwright.Listening.Takes;
using Rollwright.Web.State.Jobs;

namespace Rollwright.Web.State.Hearing;

/// <summary>A take that a visitor gave: what was heard in it, and how it lies beside the break on the bench.</summary>
public sealed class TakeDesk(Bench bench, Shelf shelf, TakeShelf takes, OwnJobs jobs) : IDisposable
{
    private Samples? sound;

    // Owned by the work that runs.
    private CancellationTokenSource? running;

    /// <summary>Something of what follows changed; may come from any thread.</summary>
    public event EventHandler? Changed;

    /// <summary>A file's name, or "recorded take"; empty before the first.</summary>
    public string Name { get; private set; } = "";

    public bool HasTake => sound is not null;

    public bool IsBusy { get; private set; }

    /// <summary>What went wrong, with its remedy; empty where nothing did.</summary>
    public string Trouble { get; private set; } = "";

    public Heard? Heard { get; private set; }

    /// <summary>The same as a break under an address; null where no hands were found.</summary>
    public Made? Made { get; private set; }

    /// <summary>The break that the take was laid beside, and what came of it; null where it was not.</summary>
    public (Made Meant, Comparison Found, TakeWords Words)? Beside { get; private set; }

    /// <summary>The visitor's own banjo, which takes are heard with from then on; null where none was learnt.</summary>
    public OwnBanjo? Banjo { get; private set; }

    /// <summary>The break that lies on the bench, to be compared with; null for none.</summary>
    public Made? OnBench => bench.Now?.Made;

    /// <summary>Takes what the browser has sent, and listens.</summary>
    public async Task Take(string id, string name, ListenOptions options)
    {
        if (!takes.TryTake(id, out var sent))
        {
            Say("the recording did not arrive; choose it again");
            return;
        }
        (sound, Name) = (sent, name);
        await Listen(options);
    }

    /// <summary>Listens again, with something else known.</summary>
    public Task Listen(ListenOptions options) =>
        Run(stop =>
        {
            var heard = Listener.Listen(sound!, options with { Title = Title, Banjo = Banjo }, stop);
            (Heard, Beside) = (heard, null);
            Made = heard.Break is { } played ? shelf.Put(Made.Of(played)) : null;
        });

    /// <summary>Lays the take beside the break on the bench.</summary>
    public Task Compare() =>
        Run(stop =>
        {
            if (OnBench is not { } meant)
                return;
            var found = BesideBreak.Compare(sound!, meant.Break, stop);
            Beside = (meant, found, TakeWords.Of(meant.Break, found));
        });

    /// <summary>Learns the visitor's banjo from the take that lies here: a slow open roll.</summary>
    public Task LearnBanjo(Tuning tuning) =>
        Run(stop =>
        {
            if (BanjoLearner.Learn(sound!, tuning, stop) is { } learnt)
                Banjo = learnt;
            else
                Trouble =
                    $"the five open strings of {tuning.Name} were not all heard twice, one by one: play a slow roll over all of them, near and alone, or say the tuning above";
        });

    /// <summary>Takes a banjo that was learnt another time.</summary>
    public void UseBanjo(string file, string text)
    {
        try
        {
            Banjo = OwnBanjoText.Parse(file, text);
            Say("");
        }
        catch (DataException fault)
        {
            Say($"in {fault.Message}; choose another file, or learn the banjo anew");
        }
    }

    /// <summary>Takes are heard as from a stranger's banjo again.</summary>
    public void ForgetBanjo()
    {
        Banjo = null;
        Say("");
    }

    /// <summary>Breaks off what is under way.</summary>
    public void Stop() => running?.Cancel();

    /// <summary>The visitor has gone: nobody waits for what is under way.</summary>
    public void Dispose() => Stop();

    public void Say(string trouble)
    {
        Trouble = trouble;
        Changed?.Invoke(this, EventArgs.Empty);
    }

    private string Title => Path.GetFileNameWithoutExtension(Name) is { Length: > 0 } title ? title : "Take";

    private async Task Run(Action<CancellationToken> work)
    {
        if (sound is null || IsBusy)
            return;
        using var stop = new CancellationTokenSource();
        running = stop;
        (IsBusy, Trouble) = (true, "");
        Changed?.Invoke(this, EventArgs.Empty);
        try
        {
            await jobs.Run(JobKind.Listening, (long)sound.Duration.TotalSeconds, Work, stop.Token);
        }
        catch (OperationCanceledException)
        {
            Trouble = "stopped; the take is still here";
        }
        catch (Exception fault) when (fault is TakeException or JobException)
        {
            Trouble = fault.Message;
        }
        finally
        {
            (IsBusy, running) = (false, null);
            Changed?.Invoke(this, EventArgs.Empty);
        }

        bool Work(CancellationToken ended)
        {
            work(ended);
            return true;
        }
    }
}
