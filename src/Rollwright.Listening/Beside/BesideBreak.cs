using System.Collections.Immutable;
using Rollwright.Audio;
using Rollwright.Banjo.Breaks;
using Rollwright.Listening.Beside.Answers;
using Rollwright.Listening.Beside.Evidence;
using Rollwright.Listening.Beside.Following;
using Rollwright.Listening.Beside.Meanings;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Beside;

/// <summary>Lays a take beside the break that was meant.</summary>
public static class BesideBreak
{
    /// <summary>A recording beside a break; the same sound and break give the same answer.</summary>
    /// <exception cref="TakeException">It is too long beside the break.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static Comparison Compare(Samples sound, Break played, CancellationToken stop = default) =>
        Compare(sound, Meant.Of(played), stop);

    /// <inheritdoc cref="Compare(Samples, Break, CancellationToken)"/>
    public static Comparison Compare(Samples sound, Meant meant, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(sound);
        ArgumentNullException.ThrowIfNull(meant);
        var heard = Listener.Notes(sound, stop);
        var sounding = new Sounding(OneSide.Of(sound), sound.Rate);
        var notes = SoundedNotes.Of(heard.Notes, sounding, stop);
        return Compare(notes, meant, followed => new SoundJudge(sounding, heard.Cents, followed, stop), stop);
    }

    /// <summary>Notes that were recorded as notes, taken for the truth.</summary>
    /// <exception cref="TakeException">It is too long beside the break.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static Comparison Compare(ImmutableArray<HeardNote> notes, Meant meant, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(meant);
        return Compare(notes, meant, _ => new NotesJudge(), stop);
    }

    private static Comparison Compare(
        ImmutableArray<HeardNote> notes,
        Meant meant,
        Func<Followed, IJudge> judge,
        CancellationToken stop
    )
    {
        var found = At(meant);
        // A capo forgotten, or another tuning, moves all notes alike: that is one remark and not a hundred.
        return !found.Follows && Higher.Find(notes, meant, stop) is { } shift
            ? At(meant.Higher(shift)) with
            {
                Higher = shift,
            }
            : found;

        Comparison At(Meant asked)
        {
            var followed = Followed.Of(notes, asked, stop);
            return new ComparisonMaker(asked, followed, judge(followed), stop).Make();
        }
    }
}
