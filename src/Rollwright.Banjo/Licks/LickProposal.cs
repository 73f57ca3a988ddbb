using System.Collections.Immutable;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;

namespace Rollwright.Banjo.Licks;

/// <summary>A lick of a player's own before it is kept: what they do not name is worked out from its steps.</summary>
/// <param name="Lick">With what was named and what was worked out.</param>
/// <param name="Others">Other chords that it fits, best first.</param>
public sealed record LickProposal(Lick Lick, ImmutableArray<Chord> Others)
{
    private const int OthersShown = 2;

    /// <param name="name">What the hands do.</param>
    /// <param name="tuning">The tuning it is played in.</param>
    /// <param name="steps">One entry a step.</param>
    /// <param name="said">What the player names.</param>
    public static LickProposal Of(string name, Tuning tuning, ImmutableArray<LickStep> steps, Said said)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(said);
        var guess = LickGuess.Of(tuning, steps, said.Next, said.Role, said.IsInThrees);
        var lick = new Lick(
            name.Trim(),
            guess.Role,
            tuning,
            said.Chord ?? guess.Chords[0],
            said.Level ?? guess.Level,
            guess.IsInThrees,
            steps
        )
        {
            Next = said.Next,
        };
        var others = guess.Chords.Where(chord => chord != lick.Chord && Fits(lick, chord));
        return new(lick, [.. others.Take(OthersShown)]);
    }

    /// <summary>Whether its notes belong over a chord.</summary>
    public static bool Fits(Lick lick, Chord chord)
    {
        ArgumentNullException.ThrowIfNull(lick);
        return ChordFit.Misfits(lick with { Chord = chord }).IsEmpty;
    }

    /// <summary>What the player names; null is worked out.</summary>
    public sealed record Said
    {
        public Chord? Chord { get; init; }
        public Chord? Next { get; init; }
        public LickRole? Role { get; init; }
        public int? Level { get; init; }
        public bool? IsInThrees { get; init; }
    }
}
