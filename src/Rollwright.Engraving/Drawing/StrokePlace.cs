using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Drawing;

/// <summary>Where a stroke stands: for a cursor that follows the sound, and for what is clicked.</summary>
/// <param name="Stroke">Its name.</param>
/// <param name="At">Whole notes from the start of its bar.</param>
/// <param name="Page">Index of the page.</param>
/// <param name="System">Index of the system, counted through all pages.</param>
/// <param name="X">Middle of the number, in points.</param>
/// <param name="Number">The room of the number.</param>
public readonly record struct StrokePlace(StrokeName Stroke, Fraction At, int Page, int System, double X, Box Number);
