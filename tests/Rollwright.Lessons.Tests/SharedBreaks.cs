using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests;

/// <summary>Breaks of all tunes of ../shared/tunes as this program arranges them; tests skip where they are missing.</summary>
internal static class SharedBreaks
{
    private static readonly Lazy<List<Break>> Loaded = new(() =>
        [
            .. Directory
                .GetFiles(Path.Combine(Places.Shared, "tunes"), "*.abc")
                .Order(StringComparer.Ordinal)
                .AsParallel()
                .AsOrdered()
                .Select(file => AbcReader.Read(File.ReadAllText(file), file).Tunes[0])
                .Select(tune => Arranger.Arrange(tune).Break),
        ]
    );

    public static IReadOnlyList<Break> All()
    {
        Places.NeedShared("tunes");
        return Loaded.Value;
    }
}
