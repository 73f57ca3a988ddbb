using System.Collections.Immutable;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Listening.Hands.Strings;

/// <summary>One way that a take may have been played up to a moment.</summary>
/// <param name="Before">Up to the moment before; null before the first.</param>
/// <param name="Now">Where the hands are then.</param>
/// <param name="Strings">The string of each key of the moment; 0 for none.</param>
/// <param name="Cost">Of all so far.</param>
internal sealed record Guess(Guess? Before, Guess.Hand Now, ImmutableArray<int> Strings, double Cost)
{
    public static Guess First { get; } = new(null, new(0, 0, 1, 0), [], 0);

    /// <summary>What the rest depends on; packed, so that equal ones are found at once.</summary>
    /// <param name="Begun">By string, 24 bits each: one more than the index of the moment at which its note began.</param>
    /// <param name="Frets">By string, five bits each.</param>
    /// <param name="Position">Fret of the index finger, from 1.</param>
    /// <param name="Last">The string that was plucked alone last; 0 for none.</param>
    public readonly record struct Hand(UInt128 Begun, uint Frets, int Position, int Last)
    {
        /// <summary>Index of the moment at which the note on a string began; -1 where it is silent or forgotten.</summary>
        public int Began(int on) => (int)(uint)((Begun >> (24 * (on - 1))) & 0xFFFFFF) - 1;

        public int FretOn(int on) => (int)(Frets >> (5 * (on - 1))) & 31;

        /// <summary>The hand with a note on a string; it goes no farther than it must.</summary>
        public Hand With(int on, int fret, int moment) =>
            new(
                Put(Begun, on, moment + 1),
                (Frets & ~(31u << (5 * (on - 1)))) | ((uint)fret << (5 * (on - 1))),
                PositionFor(fret),
                Last
            );

        /// <summary>The hand after a moment: what began before the oldest is forgotten.</summary>
        public Hand After(ImmutableArray<int> strings, int oldest)
        {
            var hand = this with { Last = strings is [var only] ? only : 0 };
            for (var s = 1; s <= Neck.Strings; s++)
                if (Began(s) is var began and >= 0 && began < oldest)
                    hand = hand with { Begun = Put(hand.Begun, s, 0), Frets = hand.Frets & ~(31u << (5 * (s - 1))) };
            return hand;
        }

        /// <summary>Where the index finger has to be for a fret; an open string moves no hand.</summary>
        public int PositionFor(int fret)
        {
            if (fret == 0)
                return Position;
            var position = Math.Min(Position, fret);
            while (Neck.Place(fret) - Neck.Place(position) > Reach.Comfortable)
                position++;
            return position;
        }

        private static UInt128 Put(UInt128 begun, int on, int value) =>
            (begun & ~((UInt128)0xFFFFFF << (24 * (on - 1)))) | ((UInt128)(uint)value << (24 * (on - 1)));
    }
}
