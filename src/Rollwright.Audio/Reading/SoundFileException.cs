namespace Rollwright.Audio.Reading;

/// <summary>A sound file that cannot be read: says at which byte, and what to do.</summary>
public sealed class SoundFileException(long at, string problem, bool isOtherForm = false)
    : Exception($"byte {at}: {problem}")
{
    /// <summary>Bytes from the start of the file.</summary>
    public long At { get; } = at;

    /// <summary>Whether it may be sound in a form that is not read here, so that another decoder may try.</summary>
    public bool IsOtherForm { get; } = isOtherForm;
}
