namespace Rollwright.Listening.Beside;

/// <summary>A take that cannot be laid beside a break; the message says what to do.</summary>
public sealed class TakeException(string message) : Exception(message);
