namespace Rollwright.Recognition;

/// <summary>
/// When two tunes are the same one: under the best transposition and shift, the notes that both have at the same step
/// with the same pitch class are at least seven tenths of their notes, 2 · common / (notes of one + notes of the other),
/// as played. Titles are not asked: one tune has many, and one title is on many tunes.
/// </summary>
internal static class Sameness
{
    /// <summary>
    /// Assumption, looked at by hand: of the tunes of the collection that share more than half with one of the 45 shared
    /// tunes, all above it are settings of that tune; below it lie looser settings and cousins, which count as other tunes.
    /// </summary>
    public const double Least = 0.7;

    public static Alignment Of(Onset[] tune, int stepsInBar) => new(Heard.Of("", tune, stepsInBar), _ => 1, _ => 0);

    public static double Share(Alignment of, Onset[] tune, Onset[] other) =>
        2 * of.Best(other) / (tune.Length + other.Length);
}
