namespace Rollwright.Formats.Messages;

/// <summary>How much a message matters.</summary>
public enum Severity
{
    /// <summary>Something that cannot matter to a break is kept aside; said once a file.</summary>
    Note,

    /// <summary>Something is doubtful; what was read may differ from what was meant.</summary>
    Warning,

    /// <summary>Something is wrong; it was left out, and reading went on behind it.</summary>
    Error,
}
