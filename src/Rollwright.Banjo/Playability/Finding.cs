using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Playability;

/// <summary>One thing that hands cannot do.</summary>
/// <param name="Rule">Id of the rule, as in <see cref="Rules.All"/>.</param>
/// <param name="Bar">Index of the written bar, from 0.</param>
/// <param name="At">Whole notes from the start of that bar.</param>
/// <param name="Stroke">Index of the stroke in that bar.</param>
/// <param name="Words">What the hand cannot do, as one sentence without bar and beat.</param>
public sealed record Finding(string Rule, int Bar, Fraction At, int Stroke, string Words);
