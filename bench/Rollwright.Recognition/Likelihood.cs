namespace Rollwright.Recognition;

/// <summary>
/// How much likelier what was heard is, note by note, if it carries a tune than if it is any music with the same notes.
/// </summary>
/// <remarks>
/// A note of the tune is heard at its step with probability p if the break carries the tune (p is stated, not learnt),
/// and with probability q if it does not, q being the share of the break's steps at which that pitch class starts. So a
/// note that is heard is worth ln(p / q), one that is not ln((1 − p) / (1 − q)); notes that the break adds are worth
/// nothing. All tunes and transpositions are equally likely beforehand.
/// </remarks>
internal static class Likelihood
{
    /// <summary>Assumption: a break keeps six notes of seven.</summary>
    public const double Kept = 0.85;

    // A pitch class that is never, or always, heard tells no more than this.
    private const double Rarest = 0.02;
    private const double Commonest = 0.8;

    public static Alignment Of(Heard heard)
    {
        double Share(int pitchClass) =>
            Math.Clamp(
                heard.Steps.Count(step => (step >> pitchClass & 1) != 0) / (double)heard.Steps.Length,
                Rarest,
                Commonest
            );
        var shares = Enumerable.Range(0, 12).Select(Share).ToArray();
        return new(
            heard,
            pitchClass => Math.Log(Kept / shares[pitchClass]),
            pitchClass => Math.Log((1 - Kept) / (1 - shares[pitchClass]))
        );
    }
}
