namespace Rollwright.Banjo.Licks;

/// <summary>What a lick is for, and so where it may stand.</summary>
public enum LickRole
{
    /// <summary>Anywhere on a beat while its chord lasts.</summary>
    Fill,

    /// <summary>A line of steps. Where it names a next chord, that chord stands right behind it, on a beat.</summary>
    Run,

    /// <summary>Ends right before a bar line: the lead-in to a part, or the end of a bar before a phrase.</summary>
    Pickup,

    /// <summary>Ends where a part ends and leads back, or on to the next part, by its next chord.</summary>
    Turnaround,

    /// <summary>Closes the tune: the end of the last bar; its last rests may be cut to the bar.</summary>
    Tag,
}

/// <summary>Roles by their words.</summary>
public static class LickRoles
{
    private static readonly LickRole[] All =
    [
        LickRole.Fill,
        LickRole.Run,
        LickRole.Pickup,
        LickRole.Turnaround,
        LickRole.Tag,
    ];

    /// <summary>"fill, run, pickup, turnaround, tag".</summary>
    public static string Known => string.Join(", ", All.Select(Word));

    public static string Word(LickRole role) =>
        role switch
        {
            LickRole.Fill => "fill",
            LickRole.Run => "run",
            LickRole.Pickup => "pickup",
            LickRole.Turnaround => "turnaround",
            _ => "tag",
        };

    /// <summary>The role of that word; null where there is none.</summary>
    public static LickRole? Find(string word)
    {
        foreach (var role in All)
        {
            if (Word(role) == word)
                return role;
        }
        return null;
    }
}
