using Rollwright.Audio.Reading;

namespace Rollwright.Cli.Files;

/// <summary>Opens recordings: the forms that are read here, and others by ffmpeg where it is installed.</summary>
internal static class SoundInput
{
    /// <exception cref="RequestException">There is no such file, or no sound is found in it.</exception>
    public static ISoundSource Open(string path)
    {
        var stream = path == "-" ? Spooled() : Opened(path);
        var name = InputFile.NameOf(path);
        try
        {
            return SoundFile.Open(stream);
        }
        catch (SoundFileException fault) when (fault.IsOtherForm)
        {
            return FfmpegSource.Open(stream, name);
        }
        catch (SoundFileException fault)
        {
            stream.Dispose();
            throw new RequestException($"{name}: {fault.Message}");
        }
    }

    private static FileStream Opened(string path)
    {
        if (Directory.Exists(path))
            throw new RequestException($"{path}: this is a folder; name the recordings in it");
        if (!File.Exists(path))
            throw new RequestException($"{path}: there is no such file");
        return new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, 65_536);
    }

    // Decoders look back and forth; a long recording from a pipe goes to the disk, not into memory.
    private static FileStream Spooled()
    {
        var file = new FileStream(
            Path.Combine(Path.GetTempPath(), $"rollwright-{Guid.NewGuid():N}.sound"),
            FileMode.CreateNew,
            FileAccess.ReadWrite,
            FileShare.ReadWrite | FileShare.Delete,
            65_536,
            FileOptions.DeleteOnClose
        );
        using var input = Console.OpenStandardInput();
        input.CopyTo(file);
        file.Position = 0;
        return file;
    }
}
