using System.Buffers.Binary;
using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Strips;

namespace Rollwright.Cli.Files;

/// <summary>
/// The strip of tab as videos, made by ffmpeg where it is installed: WebM with a transparent ground (VP9 with alpha), and MP4 on
/// plain green, which every editor of videos can take out.
/// </summary>
internal static class StripVideos
{
    // Videos cost processor time and disk by their length, pictures do not.
    private const double MostSeconds = 30 * 60;
    private const int Rate = 25;
    private static readonly string Program = "ffmpeg";

    /// <summary>What could be made, and in one line what could not.</summary>
    internal readonly record struct Made(IReadOnlyList<LessonFile> Videos, string? Missing);

    /// <param name="files">The strip's own files, the list of its pictures among them.</param>
    /// <param name="steps">What is shown when.</param>
    /// <param name="look">How dense the plate is.</param>
    public static Made Of(IReadOnlyList<LessonFile> files, IReadOnlyList<StripStep> steps, StripLook look)
    {
        if (steps[^1].To > MostSeconds)
            return new(
                [],
                $"strip.webm and strip.mp4 are not made: the take is {steps[^1].To / 60:0} minutes long, and videos are made of {MostSeconds / 60:0} at most; strip.ffconcat says how long each picture is shown"
            );
        var folder = Directory.CreateTempSubdirectory("rollwright-strip").FullName;
        try
        {
            foreach (var file in files)
            {
                var path = Path.Combine([folder, .. file.Path.Split('/')]);
                Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                File.WriteAllBytes(path, file.Bytes);
            }
            var list = Path.Combine([folder, .. StripOutput.List.Split('/')]);
            var seconds = steps[^1].To.ToString("0.000", CultureInfo.InvariantCulture);
            var (webm, mp4) = (Path.Combine(folder, "strip.webm"), Path.Combine(folder, "strip.mp4"));
            var fault =
                Run(list, [.. Webm(seconds), webm]) ?? Run(list, [.. Mp4(seconds, look.Plate, SizeOf(files)), mp4]);
            return new(
                [
                    .. new[] { webm, mp4 }
                        .Where(_ => fault is null)
                        .Select(path => new LessonFile($"strip/{Path.GetFileName(path)}", File.ReadAllBytes(path))),
                ],
                fault
            );
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    // Quality can be high, since what stands still costs next to nothing; the slow ways of the encoder win a third of the file and
    // take six times as long. A steady rate, for editors lose time where it changes.
    private static string[] Webm(string seconds) =>
        [
            .. $"-an -vf fps={Rate},format=yuva420p -t {seconds} -c:v libvpx-vp9 -b:v 0 -crf 28 -deadline realtime -cpu-used 8 -row-mt 1".Split(
                ' '
            ),
        ];

    // The plate becomes dense before it is laid on green, for green that shines through would be taken out with the ground.
    private static string[] Mp4(string seconds, double plate, (int Width, int Height) size) =>
        [
            "-f",
            "lavfi",
            "-i",
            $"color=c=0x00b140:s={size.Width}x{size.Height}:r={Rate}",
            "-filter_complex",
            string.Create(
                CultureInfo.InvariantCulture,
                $"[0:v]fps={Rate},format=rgba,lutrgb=a=min(255\\,val/{plate:0.###})[strip];[1:v][strip]overlay=format=auto:shortest=1,format=yuv420p"
            ),
            .. $"-t {seconds} -c:v libx264 -preset fast -crf 18 -movflags +faststart".Split(' '),
        ];

    // PNG: width and height stand first in the first chunk (W3C PNG, 11.2.2).
    private static (int Width, int Height) SizeOf(IReadOnlyList<LessonFile> files)
    {
        var head = files.First(file => file.Path.EndsWith(".png", StringComparison.Ordinal)).Bytes.AsSpan(16, 8);
        return (BinaryPrimitives.ReadInt32BigEndian(head), BinaryPrimitives.ReadInt32BigEndian(head[4..]));
    }

    private static string? Run(string list, IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(
            Program,
            ["-v", "error", "-nostdin", "-y", "-f", "concat", "-i", list, .. arguments]
        )
        {
            UseShellExecute = false,
            RedirectStandardError = true,
        };
        try
        {
            using var process = Process.Start(start)!;
            var said = process.StandardError.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0
                ? null
                : $"strip.webm and strip.mp4 are not made: {Program} refused ({said.Trim().Split('\n')[^1]}); the pictures and their list are there";
        }
        catch (Win32Exception)
        {
            return $"strip.webm and strip.mp4 are not made: {Program} is not installed; with it they are, or give your editor strip.ffconcat";
        }
    }
}
