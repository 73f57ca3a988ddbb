using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Keys;

namespace Rollwright.Arranging;

/// <summary>What the player asks for; what is null is chosen for them.</summary>
public sealed record ArrangeOptions
{
    public static ArrangeOptions Default { get; } = new();

    /// <summary>The key that shall sound; null for the tune's own.</summary>
    public Key? SoundingKey { get; init; }

    public Tuning? Tuning { get; init; }

    /// <summary>0 to 12; null for the one that suits the tune best.</summary>
    public int? Capo { get; init; }

    /// <summary>The octave in which the melody lies, counted from the tune as written; null for the one that suits.</summary>
    public int? Octave { get; init; }

    /// <summary>1, first year, to 5, performer.</summary>
    public int Level { get; init; } = 3;

    /// <summary>Null for the one that suits the tune: rolls where they keep it, else mixed.</summary>
    public Style? Style { get; init; }

    /// <summary>The licks at hand; those of the program by default.</summary>
    public LickIndex Licks { get; init; } = LickIndex.BuiltIn;

    /// <summary>
    /// Repeats are written out, and the second time through differs from the first in this share of its steps, 0 to 1;
    /// null for repeats as they are written.
    /// </summary>
    public double? SecondTime { get; init; }
}
