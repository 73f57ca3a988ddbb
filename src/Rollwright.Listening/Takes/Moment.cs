using System.Collections.Immutable;

namespace Rollwright.Listening.Takes;

/// <summary>A moment of a take at which something begins to sound.</summary>
/// <param name="Onset">Seconds from the beginning of the recording.</param>
/// <param name="Ways">What it may be, the likeliest first; at least one.</param>
/// <param name="Attack">1 where it begins like the plucks of the take, 0 where it has hardly a beginning.</param>
/// <param name="Confidence">0 to 1, see <see cref="HeardNote"/>.</param>
public sealed record Moment(double Onset, ImmutableArray<Moment.Way> Ways, double Attack, double Confidence)
{
    /// <param name="Keys">MIDI keys that begin, ascending, in the tuning of the instrument.</param>
    /// <param name="Cost">How much worse this explains the sound than the best way, 0 for that.</param>
    public readonly record struct Way(ImmutableArray<int> Keys, double Cost);

    public ImmutableArray<int> Keys => Ways[0].Keys;
}
