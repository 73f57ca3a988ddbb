using Rollwright.Listening.Takes;
using Rollwright.Music.Metre;

namespace Rollwright.Listening.Hands;

/// <summary>A moment of a take at its place in the bars.</summary>
/// <param name="Bar">Index of the bar.</param>
/// <param name="At">Whole notes from the start of the bar.</param>
public sealed record LaidMoment(Moment Moment, int Bar, Fraction At);
