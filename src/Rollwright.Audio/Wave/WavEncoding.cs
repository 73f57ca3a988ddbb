namespace Rollwright.Audio.Wave;

/// <summary>How a WAV file holds its numbers.</summary>
public enum WavEncoding
{
    /// <summary>Signed whole numbers of 16 bits: what every player reads.</summary>
    Pcm16,

    /// <summary>Signed whole numbers of 24 bits.</summary>
    Pcm24,

    /// <summary>IEEE 754 numbers of 32 bits, full scale at 1.</summary>
    Float32,
}
