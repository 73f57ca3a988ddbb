namespace Rollwright.Audio.Wave;

/// <summary>A WAV file that cannot be read: says at which byte, and what to do.</summary>
public sealed class WavException(long at, string problem) : Exception($"byte {at}: {problem}")
{
    /// <summary>Bytes from the start of the file.</summary>
    public long At { get; } = at;
}
