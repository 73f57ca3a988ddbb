namespace Rollwright.Web.State;

/// <summary>What the person asked for; null is 'chosen for you'.</summary>
/// <param name="Key">The sounding key, such as "A".</param>
/// <param name="Tuning">A tuning's id.</param>
/// <param name="Capo">0 to 12.</param>
/// <param name="Level">A level's id.</param>
public sealed record Wishes(string? Key = null, string? Tuning = null, int? Capo = null, string? Level = null);
