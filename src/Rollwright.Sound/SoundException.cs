namespace Rollwright.Sound;

/// <summary>A wish that cannot be sounded; the message says what is wrong and what can be had, in one line.</summary>
public sealed class SoundException(string message) : Exception(message);
