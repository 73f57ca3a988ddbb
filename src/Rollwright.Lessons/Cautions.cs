namespace Rollwright.Lessons;

/// <summary>
/// What is said once where practice or sound is set going; short, and deferring to those who are licensed to say more.
/// </summary>
public static class Cautions
{
    /// <summary>
    /// Of 520 who answered, 78 % of the banjo players had had trouble with muscles or joints, left fingers and wrist first
    /// (Fjellman-Wiklund and Chesky 2006).
    /// </summary>
    public const string Hands =
        "Keep both hands relaxed, rest between exercises, and stop at pain; if it stays, ask a doctor or a physiotherapist.";

    /// <summary>85 dBA for 8 hours is what NIOSH recommends at most (criteria 98-126); banjos read in the nineties near by.</summary>
    public const string Hearing =
        "A banjo is loud at the player's own ear, and so are headphones: keep the level down; an audiologist knows more.";

    /// <summary>Where strings are tuned up: for another tuning, or string 5 for a capo (common practice, no source).</summary>
    public const string Strings =
        "A string can break while it is tuned up: face away from it; string 5 goes up two frets at most, beyond that a repairer fits a spike.";
}
