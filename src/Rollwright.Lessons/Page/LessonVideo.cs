using Rollwright.Lessons.Captions;

namespace Rollwright.Lessons.Page;

/// <summary>A recorded take beside the lesson.</summary>
/// <param name="Address">Where the page finds it: a path from the page's folder, or an address.</param>
/// <param name="IsSound">Whether there is nothing to be seen.</param>
/// <param name="Times">Where its bars fall; null where nobody has marked them yet.</param>
public sealed record LessonVideo(string Address, bool IsSound, BarTimes? Times);
