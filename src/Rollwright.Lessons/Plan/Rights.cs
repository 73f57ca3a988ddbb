using Rollwright.Banjo.Breaks;

namespace Rollwright.Lessons.Plan;

/// <summary>Whose a tune is, as its source says.</summary>
public enum RightsKind
{
    Traditional,
    Composed,
    Unknown,
}

/// <summary>Whose a tune is, and what to look to before a lesson is published.</summary>
/// <param name="Kind">What the source says.</param>
/// <param name="Words">A sentence for the reader.</param>
/// <param name="Warning">A sentence for the teacher; empty where nothing has to be looked up.</param>
public sealed record Rights(RightsKind Kind, string Words, string Warning)
{
    /// <summary>From what the tune's source says of its composer; the program knows no tune by itself.</summary>
    public static Rights Of(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var composer = (played.Tune?.Composer is { Length: > 0 } own ? own : played.Composer).Trim();
        if (composer.Length == 0)
            return new(
                RightsKind.Unknown,
                "The source names no composer.",
                "find out whether the tune is traditional, or whose it is."
            );
        // "Trad.", "Traditional, arr. …"; an arranger may have rights too, so that the line stays as it is.
        if (composer.StartsWith("trad", StringComparison.OrdinalIgnoreCase))
            return new(RightsKind.Traditional, $"{composer.TrimEnd('.')}.", "");
        return new(
            RightsKind.Composed,
            $"{composer.TrimEnd('.')}.",
            "ask whoever has the rights of the tune, unless it is yours or they have run out."
        );
    }
}
