using System.ComponentModel;
using System.Diagnostics;
using Rollwright.Audio.Reading;
using Rollwright.Audio.Wave;

namespace Rollwright.Cli.Files;

/// <summary>The first sound of a file in any form that ffmpeg knows, as ffmpeg decodes it, block by block.</summary>
internal sealed class FfmpegSource : ISoundSource
{
    private static readonly string Program = "ffmpeg";

    private readonly FileStream file;
    private readonly Process process;
    private readonly Task<string> said;
    private readonly ISoundSource wav;
    private readonly List<string> remarks = [];
    private bool hasEnded;

    private FfmpegSource(FileStream file, Process process, Task<string> said, ISoundSource wav) =>
        (this.file, this.process, this.said, this.wav) = (file, process, said, wav);

    public int Rate => wav.Rate;

    public int Channels => wav.Channels;

    public IReadOnlyList<string> Remarks => remarks;

    /// <param name="file">It stays open until the source is closed, for it may be gone then.</param>
    /// <param name="name">Said in messages.</param>
    /// <exception cref="RequestException">ffmpeg is not installed, or finds no sound.</exception>
    public static FfmpegSource Open(FileStream file, string name)
    {
        var start = new ProcessStartInfo(Program)
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        // Only this file: a playlist must not fetch another.
        foreach (
            var argument in (string[])
                [
                    .. "-v error -nostdin -protocol_whitelist file -i".Split(' '),
                    $"file:{Path.GetFullPath(file.Name)}",
                    .. "-vn -sn -dn -map 0:a:0 -c:a pcm_f32le -f wav pipe:1".Split(' '),
                ]
        )
            start.ArgumentList.Add(argument);
        Process process;
        try
        {
            process = Process.Start(start)!;
        }
        catch (Win32Exception)
        {
            file.Dispose();
            throw new RequestException(
                $"{name}: neither WAV, MP3, Ogg Vorbis nor Opus; other forms (FLAC, AAC, videos) need the program {Program}, which is not installed"
            );
        }
        var said = process.StandardError.ReadToEndAsync();
        try
        {
            return new(file, process, said, WavReader.Open(process.StandardOutput.BaseStream));
        }
        catch (SoundFileException)
        {
            process.WaitForExit();
            var reason = LastLine(said.Result)
                .Replace($"file:{Path.GetFullPath(file.Name)}", name, StringComparison.Ordinal);
            process.Dispose();
            file.Dispose();
            throw new RequestException(
                $"{name}: no sound is found in it ({Program}: {reason}); give a recording as WAV, MP3, Ogg Vorbis or Opus"
            );
        }
    }

    public int Read(Span<float> values)
    {
        if (hasEnded)
            return 0;
        var read = wav.Read(values);
        if (read > 0)
            return read;
        hasEnded = true;
        process.WaitForExit();
        if (said.Result.Length > 0)
            remarks.Add($"damaged ({Program}: {LastLine(said.Result)}); what could be read is heard");
        return 0;
    }

    public void Dispose()
    {
        if (!process.HasExited)
            process.Kill();
        process.Dispose();
        wav.Dispose();
        file.Dispose();
    }

    private static string LastLine(string text) => text.Trim().Split('\n')[^1].Trim();
}
