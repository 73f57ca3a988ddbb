using System.Collections.Immutable;
using Rollwright.Listening.Beside.Meanings;

namespace Rollwright.Listening.Beside.Answers;

/// <summary>A take beside the break that was meant.</summary>
public sealed record Comparison
{
    public required Meant Meant { get; init; }

    /// <summary>
    /// Whether the take is one of this break; where it is not, nothing else here says anything about the player.
    /// </summary>
    public required bool Follows { get; init; }

    /// <summary>How many of the notes meant were found, 0 to 1.</summary>
    public required double Found { get; init; }

    /// <summary>
    /// Semitones by which the whole take sounds higher than the break, mostly 0; the pitches of <see cref="Meant"/> are moved by it.
    /// </summary>
    public int Higher { get; init; }

    /// <summary>By note meant.</summary>
    public required ImmutableArray<NoteAnswer> Notes { get; init; }

    /// <summary>By time.</summary>
    public required ImmutableArray<AddedNote> Added { get; init; }

    /// <summary>By time: more than one where the player began again or left something out.</summary>
    public required ImmutableArray<Stretch> Stretches { get; init; }

    /// <summary>In order of play.</summary>
    public required ImmutableArray<BarAnswer> Bars { get; init; }

    /// <summary>In order of play.</summary>
    public required ImmutableArray<PhraseAnswer> Phrases { get; init; }

    /// <summary>Indices of written bars: those, two at most, in which most went wrong, worst first.</summary>
    public required ImmutableArray<int> WorkOn { get; init; }

    /// <summary>
    /// Seconds at which the bars begin, in order of play, as far as they were played one after another without a hole: what a
    /// video's page needs.
    /// </summary>
    public ImmutableArray<double> BarStarts
    {
        get
        {
            var starts = ImmutableArray.CreateBuilder<double>();
            foreach (var bar in Bars)
            {
                if (bar.From is not { } from || (starts.Count > 0 && from <= starts[^1]))
                    break;
                starts.Add(from);
            }
            return starts.ToImmutable();
        }
    }
}
