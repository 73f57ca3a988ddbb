using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Breaks;

/// <summary>A stretch of a break that is a roll or a lick by name.</summary>
/// <param name="Kind">Roll, lick, tag, pinch.</param>
/// <param name="Name">As in the data: "forward", "alternating thumb".</param>
/// <param name="Bar">Index of the written bar in which it starts.</param>
/// <param name="At">Whole notes from the start of that bar.</param>
/// <param name="Length">Whole notes; may go over bar lines.</param>
public sealed record Span(SpanKind Kind, string Name, int Bar, Fraction At, Fraction Length);
