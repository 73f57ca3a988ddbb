using System.Collections.Immutable;

namespace Rollwright.Banjo.Tunings;

/// <summary>What the open strings sound, without a capo.</summary>
/// <param name="Id">Short name for commands and files, such as "open-g".</param>
/// <param name="Name">As players say it, such as "open G".</param>
/// <param name="Open">MIDI keys of strings 1 to 5, in that order.</param>
/// <param name="Spelling">Names of strings 5 4 3 2 1 as the trade writes them, such as "g D G B D".</param>
public sealed record Tuning(string Id, string Name, ImmutableArray<int> Open, string Spelling)
{
    /// <summary>MIDI key of an open string, 1 to 5, without a capo.</summary>
    public int OpenOf(int banjoString) => Open[banjoString - 1];

    /// <summary>MIDI key of a fretted note, without a capo.</summary>
    public int KeyOf(int banjoString, int fret) => OpenOf(banjoString) + Neck.SemitonesAbove(banjoString, fret);

    public bool Equals(Tuning? other) =>
        other is not null && Id == other.Id && Open.AsSpan().SequenceEqual(other.Open.AsSpan());

    public override int GetHashCode() => Id.GetHashCode(StringComparison.Ordinal);
}
