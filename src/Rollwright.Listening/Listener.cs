using Rollwright.Audio;
using Rollwright.Listening.Hands;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening;

/// <summary>Hears what was played in a recording of a five-string banjo, and by which hands.</summary>
public static class Listener
{
    /// <summary>The notes of a recording; none where no plucked notes are found. Same sound, same answer.</summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static Heard Listen(Samples sound, ListenOptions? options = null, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(sound);
        return Listen([OneSide.Of(sound)], sound.Rate, options, null, stop);
    }

    /// <summary>The same of a sound that comes in blocks, of which only half a minute is kept.</summary>
    /// <param name="blocks">One channel, in order.</param>
    /// <param name="rate">Samples a second.</param>
    /// <param name="options">What is known of the take.</param>
    /// <param name="progress">Told the seconds that were heard.</param>
    /// <param name="stop">Stops between pieces.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static Heard Listen(
        IEnumerable<float[]> blocks,
        int rate,
        ListenOptions? options = null,
        IProgress<double>? progress = null,
        CancellationToken stop = default
    )
    {
        options ??= ListenOptions.Default;
        var heard = Ear.Hear(blocks, rate, options.Banjo, progress, stop);
        return heard.Moments.Count == 0
            ? new([], heard.Cents)
            : InTime(TakeWriter.Write(heard.Moments, heard.Cents, options, stop));
    }

    // A rise is seen when it is steepest, a little after the pluck.
    private static Heard InTime(Heard heard)
    {
        var late = ListeningTable.Of("told-late");
        return heard with
        {
            Notes = [.. heard.Notes.Select(note => note with { Onset = Math.Max(0, note.Onset - late) })],
            BarTimes = [.. heard.BarTimes.Select(time => Math.Max(0, time - late))],
        };
    }

    /// <summary>The notes alone, without hands, bars and tempo; what is hardly heard beside another note is left out.</summary>
    public static Heard Notes(Samples sound, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(sound);
        var heard = Ear.Hear([OneSide.Of(sound)], sound.Rate, null, null, stop);
        return new([.. TakeWriter.Bare(heard.Moments.Select(moment => moment.Plainer()))], heard.Cents);
    }
}
