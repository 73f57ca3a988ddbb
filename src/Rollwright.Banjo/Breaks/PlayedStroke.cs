using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Breaks;

/// <summary>A stroke in order of play.</summary>
/// <param name="At">Whole notes from the start of the first bar.</param>
/// <param name="Stroke">What is played.</param>
/// <param name="Bar">Index of the written bar.</param>
/// <param name="Index">Index of the stroke in that bar. Bar and index name a stroke for cursors and links.</param>
public readonly record struct PlayedStroke(Fraction At, Stroke Stroke, int Bar, int Index);
