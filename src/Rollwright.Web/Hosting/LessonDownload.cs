using System.IO.Compression;
using Microsoft.AspNetCore.StaticFiles;
using Rollwright.Lessons.Outputs;
using Rollwright.Web.State;

namespace Rollwright.Web.Hosting;

/// <summary>A document of a lesson as one file to take away: a zip where it has several.</summary>
internal static class LessonDownload
{
    private static readonly FileExtensionContentTypeProvider Types = new() { Mappings = { [".vtt"] = "text/vtt" } };

    /// <exception cref="Rollwright.Lessons.LessonException">It cannot be made of this lesson.</exception>
    public static (string Name, string Type, byte[] Bytes) Of(Lesson lesson, LessonOutput output)
    {
        LessonFile[] files = [.. output.Make(lesson)];
        return files is [var only]
            ? ($"{StemOf(lesson)}-{Path.GetFileName(only.Path)}", TypeOf(only.Path), only.Bytes)
            : ($"{StemOf(lesson)}-{output.Name}.zip", "application/zip", Zip(files));
    }

    public static byte[] Zip(IEnumerable<LessonFile> files)
    {
        using var memory = new MemoryStream();
        using (var zip = new ZipArchive(memory, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var file in files)
            {
                using var entry = zip.CreateEntry(file.Path).Open();
                entry.Write(file.Bytes);
            }
        }
        return memory.ToArray();
    }

    public static string StemOf(Lesson lesson) => new Made("", lesson.Plan.Played).Stem;

    private static string TypeOf(string path)
    {
        var type = Types.TryGetContentType(path, out var known) ? known : "application/octet-stream";
        return type.StartsWith("text/", StringComparison.Ordinal) ? $"{type}; charset=utf-8" : type;
    }
}
