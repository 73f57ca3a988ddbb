using Rollwright.Audio.Reading;
using Rollwright.Audio.Wave;
using Rollwright.TestKit;

namespace Rollwright.Audio.Tests.Reading;

/// <summary>Sound files that outside programs make of a sound of ours: tones that are struck, each channel its own.</summary>
internal static class SoundFiles
{
    public static Samples Struck(int rate, int channels, double seconds)
    {
        var values = new float[(int)(rate * seconds) * channels];
        for (var i = 0; i < values.Length; i++)
        {
            var (time, channel) = ((double)(i / channels) / rate, i % channels);
            var since = time % 0.25;
            var pitch = 220 * Math.Pow(2, (((int)(time / 0.25) * 5) + (channel * 4)) % 24 / 12.0);
            values[i] = (float)(
                0.4 * Math.Exp(-since * 9) * Math.Min(1, since * 400) * Math.Sin(2 * Math.PI * pitch * since)
            );
        }
        return new(rate, channels, values);
    }

    /// <summary>Has ffmpeg make a file of a sound; <c>{0}</c> and <c>{1}</c> are what it reads and what it writes.</summary>
    public static byte[] Made(Samples sound, string ending, string arguments) =>
        InFolder(folder =>
        {
            var (wav, made) = (Path.Combine(folder, "ours.wav"), Path.Combine(folder, $"made.{ending}"));
            File.WriteAllBytes(wav, WavWriter.ToBytes(sound, WavEncoding.Float32));
            var (code, _, error) = Outside.Run(
                "ffmpeg",
                ["-v", "error", "-y", "-i", wav, .. arguments.Split(' ', StringSplitOptions.RemoveEmptyEntries), made]
            );
            code.Should().Be(0, error);
            return File.ReadAllBytes(made);
        });

    /// <summary>What opusdec, the codec's own program, hears in a file.</summary>
    public static Samples AsOpusdecReads(byte[] file) =>
        InFolder(folder =>
        {
            var (path, wav) = (Path.Combine(folder, "file.opus"), Path.Combine(folder, "theirs.wav"));
            File.WriteAllBytes(path, file);
            var (code, _, error) = Outside.Run("opusdec", "--quiet", "--float", "--rate", "48000", path, wav);
            code.Should().Be(0, error);
            return WavReader.Read(File.ReadAllBytes(wav));
        });

    /// <summary>What ffmpeg hears in a file.</summary>
    public static Samples AsFfmpegReads(byte[] file) =>
        InFolder(folder =>
        {
            var (path, wav) = (Path.Combine(folder, "file"), Path.Combine(folder, "theirs.wav"));
            File.WriteAllBytes(path, file);
            var (code, _, error) = Outside.Run("ffmpeg", ["-v", "error", "-y", "-i", path, "-c:a", "pcm_f32le", wav]);
            code.Should().Be(0, error);
            return WavReader.Read(File.ReadAllBytes(wav));
        });

    public static (Samples Sound, IReadOnlyList<string> Remarks) AsWeRead(byte[] file)
    {
        using var source = SoundFile.Open(new MemoryStream(file));
        // Blocks of an awkward length, as a listener may ask for them.
        var values = new List<float>();
        var block = new float[1_009 * source.Channels];
        while (source.Read(block) is > 0 and var read)
            values.AddRange(block.AsSpan(0, read));
        return (new(source.Rate, source.Channels, [.. values]), source.Remarks);
    }

    public static double GreatestDifference(Samples one, Samples other)
    {
        var greatest = 0.0;
        for (var i = 0; i < Math.Min(one.Interleaved.Length, other.Interleaved.Length); i++)
            greatest = Math.Max(greatest, Math.Abs(one.Interleaved[i] - other.Interleaved[i]));
        return greatest;
    }

    /// <summary>How far the difference lies below the sound, in dB.</summary>
    public static double Agreement(Samples one, Samples other)
    {
        double difference = 1e-20,
            power = 0;
        for (var i = 0; i < Math.Min(one.Interleaved.Length, other.Interleaved.Length); i++)
        {
            difference += Math.Pow(one.Interleaved[i] - other.Interleaved[i], 2);
            power += Math.Pow(other.Interleaved[i], 2);
        }
        return 10 * Math.Log10(power / difference);
    }

    private static T InFolder<T>(Func<string, T> work)
    {
        var folder = Directory.CreateTempSubdirectory("rollwright-sound").FullName;
        try
        {
            return work(folder);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
