using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Solving;

/// <summary>What the hands do at one step of the best path.</summary>
/// <param name="Shape">The left hand when the step begins to sound.</param>
/// <param name="Event">Index into <c>RightEvent.All</c>; silence where the left hand slurs.</param>
/// <param name="SlurString">The string that the left hand slurs at this step instead of a pluck; 0 for none.</param>
/// <param name="Slur">How; null where nothing is slurred at the step.</param>
/// <param name="HalfShape">The left hand half a step later, where a plucked note is slurred at once; otherwise null.</param>
/// <param name="HalfSlur">How.</param>
public readonly record struct PathStep(
    HandShape Shape,
    int Event,
    int SlurString = 0,
    SlurKind? Slur = null,
    HandShape? HalfShape = null,
    SlurKind? HalfSlur = null
)
{
    /// <summary>The left hand when the step is over.</summary>
    public HandShape After => HalfShape ?? Shape;
}
