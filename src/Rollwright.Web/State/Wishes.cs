namespace Rollwright.Web.State;

/// <summary>What the person asked for; null is 'chosen for you'.</summary>
/// <param name="Key">The sounding key's tonic, such as "A"; the mode is the tune's.</param>
/// <param name="Tuning">A tuning's id.</param>
/// <param name="Capo">0 to 12.</param>
/// <param name="Level">1, first year, to 5, performer.</param>
public sealed record Wishes(string? Key = null, string? Tuning = null, int? Capo = null, int Level = Wishes.UsualLevel)
{
    public const int UsualLevel = 3;
}
