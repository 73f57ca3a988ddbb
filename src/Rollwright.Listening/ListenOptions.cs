using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Banjos;
using Rollwright.Music.Metre;

namespace Rollwright.Listening;

/// <summary>What is known of a take; everything that is not given is found.</summary>
public sealed record ListenOptions
{
    public static ListenOptions Default { get; } = new();

    public Tuning? Tuning { get; init; }

    /// <summary>Fret of the capo, 0 to 12.</summary>
    public int? Capo { get; init; }

    /// <summary>The metre; 4/4, 3/4 or 6/8 where it is not given.</summary>
    public TimeSignature? Time { get; init; }

    /// <summary>Beats of the metre a minute, more than zero; quarters where no metre is given.</summary>
    public double? PerMinute { get; init; }

    /// <summary>The banjo that it was played on, where it was learnt.</summary>
    public OwnBanjo? Banjo { get; init; }

    /// <summary>What the break is called.</summary>
    public string Title { get; init; } = "Take";
}
