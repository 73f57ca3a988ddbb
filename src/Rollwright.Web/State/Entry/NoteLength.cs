using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Web.State.Entry;

/// <summary>How long a note is that is tapped or played in.</summary>
/// <param name="Name">"dotted quarter".</param>
/// <param name="Length">Whole notes.</param>
public sealed record NoteLength(string Name, Fraction Length)
{
    /// <summary>From the shortest; the digits 1 and up choose them.</summary>
    public static ImmutableArray<NoteLength> All { get; } =
    [
        new("sixteenth", new(1, 16)),
        new("eighth", new(1, 8)),
        new("quarter", new(1, 4)),
        new("dotted quarter", new(3, 8)),
        new("half", new(1, 2)),
        new("dotted half", new(3, 4)),
        new("whole", new(1)),
    ];

    public static NoteLength Usual => All[1];
}
