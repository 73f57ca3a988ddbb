namespace Rollwright.Arranging;

/// <summary>A tune that cannot be arranged as asked; the message says why and what to do.</summary>
public sealed class ArrangeException(string message) : Exception(message);
