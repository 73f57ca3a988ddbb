using Rollwright.Audio.Reading;

namespace Rollwright.Audio.Wave;

/// <summary>Reads WAV files, whole or in blocks; see <see cref="SoundFile"/> for other forms.</summary>
public static class WavReader
{
    /// <exception cref="SoundFileException">It is no WAV file, or of a form that is not read.</exception>
    public static Samples Read(byte[] bytes)
    {
        using var source = Open(new MemoryStream(bytes));
        return source.ReadAll(int.MaxValue);
    }

    /// <summary>A WAV file in blocks.</summary>
    /// <param name="stream">At its beginning; it need not be seekable; closed with the source.</param>
    /// <exception cref="SoundFileException">It is no WAV file, or of a form that is not read.</exception>
    public static ISoundSource Open(Stream stream) => new WavSource(stream);
}
