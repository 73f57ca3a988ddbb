using System.Collections.Concurrent;
using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Rolls;

namespace Rollwright.Arranging.Styles;

/// <summary>How a break is played: one or two ways to choose from, phrase by phrase, and how time is divided.</summary>
public sealed class Style
{
    private const int MostHands = 100;

    private readonly ConcurrentDictionary<BarPattern, RightHand> hands = [];

    /// <param name="name">As players say it.</param>
    /// <param name="manners">One or two; the first is the one that licks belong to.</param>
    /// <param name="followsTune">Every note of the tune gets a step of its own.</param>
    /// <param name="placesANote">On how many strings a note of the tune may be looked for.</param>
    /// <param name="wholeChords">Chords all over the neck are offered, for a part behind someone else.</param>
    /// <param name="rolls">What a bar may be; default for the whole table.</param>
    public Style(
        string name,
        ImmutableArray<Manner> manners,
        bool followsTune,
        int placesANote,
        bool wholeChords = false,
        ImmutableArray<Roll> rolls = default
    )
    {
        Rolls = rolls.IsDefault ? RollTable.All : rolls;
        Name = name;
        Manners = manners;
        FollowsTune = followsTune;
        PlacesANote = placesANote;
        WholeChords = wholeChords;
        Moves = new(manners[0].Weights);
    }

    public string Name { get; }

    public ImmutableArray<Manner> Manners { get; }

    public bool FollowsTune { get; }

    public int PlacesANote { get; }

    /// <summary>The left hand holds chords all over the neck, whether or not the tune is near.</summary>
    public bool WholeChords { get; }

    /// <summary>The rolls that the right hand knows.</summary>
    public ImmutableArray<Roll> Rolls { get; }

    /// <summary>The left hand moves alike in all ways of playing.</summary>
    public MovePrice Moves { get; }

    /// <summary>Prices that belong to no way of playing: of licks, of consistency.</summary>
    public Weights Weights => Manners[0].Weights;

    /// <summary>The right hand in a bar; built once for all tunes, as long as they are not too many.</summary>
    public RightHand HandFor(BarPattern pattern)
    {
        // Some hundred kilobytes each: a collection with all its ornaments must not fill the memory.
        if (hands.Count > MostHands)
            hands.Clear();
        return hands.GetOrAdd(pattern, _ => RightHand.Build(pattern, Rolls, this));
    }

    /// <summary>The same style with other prices.</summary>
    public Style With(Func<Weights, Weights> change) =>
        new(
            Name,
            [.. Manners.Select(manner => new Manner(manner.Name, change(manner.Weights)))],
            FollowsTune,
            PlacesANote,
            WholeChords,
            Rolls
        );

    /// <summary>The same style with only some of the rolls.</summary>
    public Style With(ImmutableArray<Roll> rolls) => new(Name, Manners, FollowsTune, PlacesANote, WholeChords, rolls);
}
