namespace Rollwright.Banjo.Licks;

/// <summary>What a lick is for.</summary>
public enum LickRole
{
    /// <summary>Anywhere in its chord.</summary>
    Fill,

    /// <summary>Closes the tune.</summary>
    Tag,
}
