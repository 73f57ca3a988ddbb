using Rollwright.Listening.Beside.Following;

namespace Rollwright.Listening.Beside.Evidence;

/// <summary>Says what a gesture that was meant came to.</summary>
internal interface IJudge
{
    /// <param name="meant">The gesture.</param>
    /// <param name="slurred">Whether the left hand alone makes it.</param>
    /// <param name="heard">What was heard of it; null where nothing was.</param>
    /// <param name="place">Where it should be.</param>
    Verdict Of(Gesture meant, bool slurred, Gesture? heard, Place place);

    /// <summary>Which notes of a gesture that nothing meant explains are there.</summary>
    /// <param name="heard">The gesture.</param>
    /// <param name="next">Seconds: where the next one begins.</param>
    IReadOnlyList<int> Added(Gesture heard, double next);
}

/// <summary>Where a gesture should be, in seconds.</summary>
/// <param name="Expected">By the tempo around it.</param>
/// <param name="Before">Onset of the gesture heard before it.</param>
/// <param name="Next">Onset of the gesture heard after it.</param>
internal readonly record struct Place(double Expected, double Before, double Next);
