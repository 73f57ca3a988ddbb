namespace Rollwright.Banjo.Licks;

/// <summary>What a lick is, in one line.</summary>
public static class LickFacts
{
    /// <summary>"fill over G, level 2, 8 steps in twos, low on the neck, 1 slur, open G".</summary>
    public static string Of(Lick lick)
    {
        ArgumentNullException.ThrowIfNull(lick);
        return $"{LickRoles.Word(lick.Role)} over {lick.Chord}"
            + (lick.Next is { } next ? $", leads to {next}" : "")
            + $", level {lick.Level}, {lick.Length} steps in {Beats(lick)}, {Registers.Place(lick.Register)}"
            + $", {lick.Slurs} slur{(lick.Slurs == 1 ? "" : "s")}, {lick.Tuning.Name}";
    }

    /// <summary>"twos", "threes".</summary>
    public static string Beats(Lick lick)
    {
        ArgumentNullException.ThrowIfNull(lick);
        return lick.IsInThrees ? "threes" : "twos";
    }
}
