namespace Rollwright.Listening.Beside;

/// <summary>What became of a note that was meant.</summary>
public enum NoteLabel
{
    /// <summary>It sounded, in time or not.</summary>
    Ok,

    /// <summary>Another pitch sounded in its place.</summary>
    Wrong,

    /// <summary>Nothing sounded in its place.</summary>
    Missing,

    /// <summary>The take goes elsewhere before it: a repeat left out, an early end.</summary>
    LeftOut,
}
