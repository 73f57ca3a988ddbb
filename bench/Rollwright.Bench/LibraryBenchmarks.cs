using BenchmarkDotNet.Attributes;
using Rollwright.Library;
using Rollwright.Library.Importing;
using Rollwright.Library.Kept;

namespace Rollwright.Bench;

/// <summary>A library of the five thousand tunes of ../shared/collection: what someone who types waits for.</summary>
[SimpleJob(warmupCount: 4, iterationCount: 7)]
public class LibraryBenchmarks
{
    private string folder = "";
    private TuneLibrary library = null!;
    private Guid played;
    private int revision = 1;

    [GlobalSetup]
    public async Task Fill()
    {
        folder = Directory.CreateTempSubdirectory("rollwright-bench").FullName;
        library = await TuneLibrary.OpenAsync(new(Path.Combine(folder, "library.db"), null), TimeProvider.System);
        var collection = Environment.GetEnvironmentVariable("COLLECTION") ?? "../shared/collection";
        var report = await AbcImport.RunAsync(library, [Path.GetFullPath(collection)], [], TimeProvider.System);
        if (report.Added < 5_000)
            throw new InvalidOperationException(
                $"{report.Added} tunes from {collection}: name the folder in COLLECTION."
            );
        var tune = (await library.TunesAsync(1))[0];
        played = (
            await library.BeginAsync(tune.Id, "bench", new(Guid.NewGuid(), "begun", "", new string('x', 20_000)))
        ).Id;
    }

    /// <summary>One word by its beginning: many answers, the best fifty.</summary>
    [Benchmark]
    public async Task<int> FindABeginning() => (await library.FindAsync("the m", 50)).Count;

    /// <summary>Two words: few answers.</summary>
    [Benchmark]
    public async Task<int> FindTwoWords() => (await library.FindAsync("kettle reel", 50)).Count;

    /// <summary>The first letter typed into the page's search box: the most answers there can be, the best twenty with their breaks.</summary>
    [Benchmark]
    public async Task<int> SearchTheFirstLetter() => (await library.SearchAsync("t", 20)).Count;

    /// <summary>The same some letters later.</summary>
    [Benchmark]
    public async Task<int> SearchSomeLetters() => (await library.SearchAsync("kett", 20)).Count;

    /// <summary>A change kept: on the disk when it is answered.</summary>
    [Benchmark]
    public async Task Save()
    {
        if (
            await library.SaveAsync(played, revision, new(Guid.NewGuid(), "change", "", new string('x', 20_000)))
            is SaveOutcome.Saved { Revision.Number: var number }
        )
            revision = number;
    }

    [GlobalCleanup]
    public void Clear() => Directory.Delete(folder, recursive: true);
}
