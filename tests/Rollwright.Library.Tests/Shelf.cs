using Rollwright.Library.Kept;

namespace Rollwright.Library.Tests;

/// <summary>A library of one test's own, gone when the test is over.</summary>
internal sealed class Shelf : IAsyncDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("rollwright-library").FullName;
    private readonly string? database;

    private Shelf(LibraryPlace? place, string? database)
    {
        Place = place ?? new(Path.Combine(folder, "library.db"), null);
        this.database = database;
    }

    public LibraryPlace Place { get; }

    public TuneLibrary Library { get; private set; } = null!;

    public string Folder => folder;

    public static async Task<Shelf> OpenAsync(bool onServer = false)
    {
        var database = onServer ? await Server.CreateDatabase() : null;
        var shelf = new Shelf(database is null ? null : new(null, database), database);
        await shelf.Reopen();
        return shelf;
    }

    public async Task<TuneLibrary> Reopen() => Library = await TuneLibrary.OpenAsync(Place, TimeProvider.System);

    public static KeptTune Tune(string title, string abc = "X:1\nT:Test\nK:G\nGABc|\n", params string[] tags) =>
        new(
            Guid.CreateVersion7(),
            title,
            abc,
            "G major",
            "4/4",
            "",
            "test.abc",
            [.. tags],
            Guid.NewGuid().ToString("N")[..16],
            DateTimeOffset.UnixEpoch
        );

    public async ValueTask DisposeAsync()
    {
        if (database is not null)
            await Server.Drop(database);
        Directory.Delete(folder, recursive: true);
    }
}
