namespace Rollwright.Web.State.Jobs;

/// <summary>Heavy work that was not taken, or was broken off; nothing that was there before is lost.</summary>
/// <param name="what">What is in the way.</param>
/// <param name="remedy">What to do.</param>
/// <param name="isForNow">It may be otherwise in a minute.</param>
public sealed class JobException(string what, string remedy, bool isForNow = false) : Exception($"{what}; {remedy}")
{
    public bool IsForNow { get; } = isForNow;
}
