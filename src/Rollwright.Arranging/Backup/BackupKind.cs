namespace Rollwright.Arranging.Backup;

/// <summary>How a part behind someone else is played.</summary>
public enum BackupKind
{
    /// <summary>Rolls over a bass line that runs from chord to chord.</summary>
    Rolls,

    /// <summary>Bass on the beat, a pinch of a closed chord off it.</summary>
    Vamp,
}
