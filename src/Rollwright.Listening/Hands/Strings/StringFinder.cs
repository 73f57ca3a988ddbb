using System.Collections.Immutable;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Hands.Strings;

/// <summary>
/// On which string each note was played: a beam search over what lies on every string and where the left hand stands.
/// The hand stays where it is unless something is worth its way, no string is plucked twice running, and a note on a
/// string ends the one before.
/// </summary>
/// <remarks>The lattice forgets where an open hand stands, and which string a note from before the last step is on.</remarks>
internal sealed class StringFinder(Tuning tuning, int capo, StopSense? stops)
{
    // Where an unlikely beginning could turn out right, some dozens are enough (assumption; more changed nothing).
    private const int Beam = 120;

    // Notes from longer ago have mostly died away.
    private const int Remembered = 10;

    // Frets that a slur goes over at most (assumption).
    private const int WidestSlur = 4;

    private readonly StringPrices prices = new();

    /// <summary>The string of each key of each moment's best way; 0 where a key lies on none.</summary>
    /// <param name="moments">By time.</param>
    /// <param name="at">Half steps of each from the first: what begins between two steps is mostly slurred.</param>
    public List<ImmutableArray<int>> Find(IReadOnlyList<Moment> moments, IReadOnlyList<int> at)
    {
        var beam = new List<Guess> { Guess.First };
        for (var i = 0; i < moments.Count; i++)
        {
            var keys = moments[i].Keys;
            var (plucked, slurred) = prices.OfAttack(moments[i].Attack, at[i] % 2 != 0);
            var next = new Dictionary<Guess.Hand, Guess>();
            foreach (var guess in beam)
            {
                foreach (var way in Placed(keys, 0, []))
                    Keep(Grow(guess with { Cost = guess.Cost + plucked }, way, i, false, moments));
                if (keys is [var key] && CanSlur(guess.Now, key))
                    Keep(Grow(guess with { Cost = guess.Cost + slurred }, [guess.Now.Last], i, true, moments));
            }
            beam = [.. next.Values.OrderBy(guess => guess.Cost).Take(Beam)];

            void Keep(Guess grown)
            {
                if (!next.TryGetValue(grown.Now, out var other) || grown.Cost < other.Cost)
                    next[grown.Now] = grown;
            }
        }
        var found = new List<ImmutableArray<int>>();
        for (var guess = beam[0]; guess.Before is { } before; guess = before)
            found.Add(guess.Strings);
        found.Reverse();
        return found;
    }

    private bool CanSlur(Guess.Hand hand, int key) =>
        hand.Last is var on and >= 1 and < Neck.ShortString
        && key - capo - tuning.OpenOf(on) is var fret and >= 0
        && fret != hand.FretOn(on)
        && Math.Abs(fret - hand.FretOn(on)) <= WidestSlur;

    private Guess Grow(Guess guess, ImmutableArray<int> way, int index, bool isSlur, IReadOnlyList<Moment> moments)
    {
        var (hand, cost) = (guess.Now, guess.Cost);
        if (way.Length > 1 && !way.Contains(1))
            cost += prices.Pinch;
        for (var i = 0; i < way.Length; i++)
        {
            if (way[i] is not (var on and not 0))
                continue;
            var fret = moments[index].Keys[i] - capo - tuning.OpenOf(on);
            cost += prices.Of(guess.Now, on, fret, isSlur);
            if (stops is not null && FallOn(guess.Now, on, index, moments) is { } fall)
                cost -= prices.Stop * stops.Of(fall);
            hand = hand.With(on, fret, index);
        }
        return new(guess, hand.After(way, index - Remembered), way, cost);
    }

    // What became of the note that the string had; null where it had none, or none that can be told from others.
    private double? FallOn(Guess.Hand hand, int on, int index, IReadOnlyList<Moment> moments)
    {
        if (hand.Began(on) is var began && began < 0)
            return null;
        var key = tuning.OpenOf(on) + hand.FretOn(on) + capo;
        foreach (var fall in moments[index].Falls)
            if (fall.Key == key && fall.Began == moments[began].Onset)
                return fall.Decibels;
        return null;
    }

    // Keys to strings, each string once.
    private IEnumerable<ImmutableArray<int>> Placed(ImmutableArray<int> keys, int index, ImmutableArray<int> before)
    {
        if (index == keys.Length)
        {
            yield return before;
            yield break;
        }
        var any = false;
        for (var s = 1; s <= Neck.Strings; s++)
        {
            var fret = keys[index] - capo - tuning.OpenOf(s);
            if (fret < 0 || fret > (s == Neck.ShortString ? 0 : Neck.LastFret - capo) || before.Contains(s))
                continue;
            any = true;
            foreach (var way in Placed(keys, index + 1, before.Add(s)))
                yield return way;
        }
        if (!any)
            foreach (var way in Placed(keys, index + 1, before.Add(0)))
                yield return way;
    }
}
