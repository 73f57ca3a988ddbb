using Rollwright.Formats.Abc;
using Rollwright.Music.Tunes;

namespace Rollwright.Recognition;

/// <summary>A tune that a break may be of.</summary>
/// <param name="Source">Where it stands: file and number.</param>
/// <param name="Title">As its source says.</param>
/// <param name="Onsets">As played.</param>
/// <param name="StepsInBar">Of its first metre.</param>
internal sealed record Candidate(string Source, string Title, Onset[] Onsets, int StepsInBar)
{
    private static Candidate Of(Tune tune, string source) =>
        new(source, tune.Title, Onset.Of(tune), Math.Max(1, (int)(tune.Time.Bar / tune.Time.Step).Floor()));

    public static Candidate[] ReadAll(string folder) =>
        [
            .. Directory
                .GetFiles(folder, "*.abc")
                .Order(StringComparer.Ordinal)
                .AsParallel()
                .AsOrdered()
                .SelectMany(path =>
                    AbcReader
                        .Read(File.ReadAllBytes(path), Path.GetFileName(path))
                        .Tunes.Select(tune => Of(tune, $"{Path.GetFileNameWithoutExtension(path)} {tune.Number}"))
                ),
        ];

    /// <summary>The first tune of a file.</summary>
    public static Candidate ReadOne(string path) =>
        Of(AbcReader.Read(File.ReadAllBytes(path), Path.GetFileName(path)).Tunes[0], Path.GetFileName(path));
}
