using System.Collections.Immutable;

namespace Rollwright.Listening.Takes;

/// <summary>A moment of a take at which something begins to sound.</summary>
/// <param name="Onset">Seconds from the beginning of the recording.</param>
/// <param name="Ways">What it may be, the likeliest first; at least one.</param>
/// <param name="Attack">1 where it begins like the plucks of the take, 0 where it has hardly a beginning.</param>
/// <param name="Fit">How alike the sound and its best way are, 0 to 1.</param>
public sealed record Moment(double Onset, ImmutableArray<Moment.Way> Ways, double Attack, double Fit)
{
    /// <param name="Keys">MIDI keys that begin, ascending, in the tuning of the instrument.</param>
    /// <param name="Cost">How much worse this explains the sound than the best way, 0 for that.</param>
    public readonly record struct Way(ImmutableArray<int> Keys, double Cost);

    /// <summary>A note from before, and how much its level changes with this beginning.</summary>
    /// <param name="Began">Its onset, seconds.</param>
    /// <param name="Key">MIDI key.</param>
    /// <param name="Decibels">Of the partials that no other note has; below 0 where it is softer afterwards.</param>
    public readonly record struct Fall(double Began, int Key, double Decibels);

    public ImmutableArray<int> Keys => Ways[0].Keys;

    /// <summary>The likeliest string of each of the keys, 0 where it has none; empty where nobody was asked.</summary>
    public ImmutableArray<int> Strings { get; init; } = [];

    /// <summary>What became of notes from before.</summary>
    public ImmutableArray<Fall> Falls { get; init; } = [];

    /// <summary>The same for a question that a note too many would spoil: each note beside another has to explain the sound better.</summary>
    public Moment Plainer()
    {
        var cost = ListeningTable.Of("further");
        var dearer = Ways.Select(way => way with { Cost = way.Cost + (cost * (way.Keys.Length - 1)) })
            .OrderBy(way => way.Cost)
            .ToList();
        return this with
        {
            Ways = [.. dearer.Select(way => way with { Cost = way.Cost - dearer[0].Cost })],
            Strings = [],
        };
    }

    /// <summary>How surely a key began here: 0 to 1, how often notes heard as clearly were right on the listening bench.</summary>
    public double ConfidenceIn(int key)
    {
        // How much worse the sound is explained by the best way without it; notes that the hands put in are not clear at all.
        var with = Ways.Where(way => way.Keys.Contains(key))
            .Select(way => way.Cost)
            .DefaultIfEmpty(double.MaxValue)
            .Min();
        var without = Ways.Where(way => !way.Keys.Contains(key))
            .Select(way => way.Cost)
            .DefaultIfEmpty(Ways[^1].Cost)
            .Min();
        var margin = Math.Clamp(without - with, -1, 1);
        var sum =
            ListeningTable.Of("sure")
            + (ListeningTable.Of("sure-margin") * margin)
            + (ListeningTable.Of("sure-fit") * Fit);
        return 1 / (1 + Math.Exp(-sum));
    }
}
