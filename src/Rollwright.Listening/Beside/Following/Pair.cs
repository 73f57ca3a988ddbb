namespace Rollwright.Listening.Beside.Following;

/// <summary>A gesture heard and the gesture meant that it is.</summary>
/// <param name="Heard">Index among those heard.</param>
/// <param name="Meant">Index among those meant.</param>
/// <param name="IsJump">Whether the one before is not followed from: the first, or after going elsewhere.</param>
internal readonly record struct Pair(int Heard, int Meant, bool IsJump);
