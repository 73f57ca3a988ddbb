using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests;

/// <summary>Breaks of all tunes of ../shared/tunes as this program arranges them; tests skip where they are missing.</summary>
internal static class SharedBreaks
{
    private static readonly Lazy<List<Break>> Loaded = new(() =>
        [.. Arrangements(ArrangeOptions.Default).Select(made => made.Break)]
    );

    public static IReadOnlyList<Break> All()
    {
        Places.NeedShared("tunes");
        return Loaded.Value;
    }

    /// <summary>Every tune as it is asked for.</summary>
    public static IReadOnlyList<Break> In(ArrangeOptions options)
    {
        Places.NeedShared("tunes");
        return [.. Arrangements(options).Select(made => made.Break)];
    }

    /// <summary>Tunes from the first on, every so many, with how they came about.</summary>
    public static IReadOnlyList<Arrangement> Made(ArrangeOptions options, int first, int every)
    {
        Places.NeedShared("tunes");
        return [.. Arrangements(options, first, every)];
    }

    private static ParallelQuery<Arrangement> Arrangements(ArrangeOptions options, int first = 0, int every = 1) =>
        Directory
            .GetFiles(Path.Combine(Places.Shared, "tunes"), "*.abc")
            .Order(StringComparer.Ordinal)
            .Where((_, i) => i % every == first)
            .AsParallel()
            .AsOrdered()
            .Select(file => AbcReader.Read(File.ReadAllText(file), file).Tunes[0])
            .Select(tune => Arranger.Arrange(tune, options));
}
