using Rollwright.Engraving.Drawing;

namespace Rollwright.Lessons.Strips;

/// <summary>What the strip shows for a while.</summary>
/// <param name="From">Seconds from the start of the take.</param>
/// <param name="To">Seconds; where the next one begins.</param>
/// <param name="Bar">Which of the bars as played, from 0; -1 before the first one.</param>
/// <param name="Left">Where what is seen begins, in points of the strip.</param>
/// <param name="Mark">The room that is marked, in points of the strip; null before the first note.</param>
public sealed record StripStep(double From, double To, int Bar, double Left, Box? Mark);
