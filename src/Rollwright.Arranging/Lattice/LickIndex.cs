using System.Collections.Concurrent;
using System.Collections.Immutable;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Settings;

namespace Rollwright.Arranging.Lattice;

/// <summary>Licks as paths of the hands, found by tuning, chord and metre: made once for a bank.</summary>
public sealed class LickIndex(ImmutableArray<Lick> licks)
{
    private readonly ConcurrentDictionary<string, ILookup<Key, Entry>> byStrings = [];

    public int Count => licks.Length;

    /// <summary>The licks of the program.</summary>
    public static LickIndex BuiltIn { get; } = new(LickBank.BuiltIn.Licks);

    /// <param name="Root">Pitch class of the chord's root; -1 finds licks for any chord.</param>
    /// <param name="IsInThrees">Metres whose beats divide in three.</param>
    public readonly record struct Key(int Root, bool IsInThrees);

    public sealed record Entry(Lick Lick, ImmutableArray<PathStep> Path)
    {
        /// <inheritdoc cref="Lick.HighestFret"/>
        public int HighestFret { get; } = Lick.HighestFret;

        public bool HasSlurs { get; } = Lick.Slurs > 0;
    }

    /// <summary>Licks that can be played in a setting, whatever the level, by chord and metre.</summary>
    public ILookup<Key, Entry> For(Setting setting)
    {
        var longStrings = setting.Tuning.Open.AsSpan(0, 4).ToArray();
        return byStrings.GetOrAdd(
            string.Join(' ', longStrings),
            _ =>
                licks
                    .Where(lick => lick.Tuning.Open.AsSpan(0, 4).SequenceEqual(longStrings))
                    .Select(lick => new Entry(lick, LickPath.Of(lick)))
                    .Where(entry => !entry.Path.IsDefault)
                    .ToLookup(entry => new Key(entry.Lick.Chord.Root.PitchClass, entry.Lick.IsInThrees))
        );
    }
}
