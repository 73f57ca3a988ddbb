namespace Rollwright.Web.State;

/// <summary>Something to tell the person about their text or their wishes.</summary>
/// <param name="Line">Counted from 1; null where it is about no place of the text.</param>
/// <param name="Column">Counted from 1.</param>
/// <param name="What">What is the case.</param>
/// <param name="Remedy">What to do; may be empty.</param>
/// <param name="IsError">Something is wrong, rather than doubtful or merely to be known.</param>
public sealed record Problem(int? Line, int? Column, string What, string Remedy, bool IsError);
