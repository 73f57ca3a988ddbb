namespace Rollwright.Class;

/// <summary>What was asked of the class cannot be so; the message says why and what to do. Nothing was changed.</summary>
public sealed class ClassException(string message) : Exception(message);
