using System.Collections.Immutable;
using System.Data;
using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Rollwright.Library.Kept;
using Rollwright.Library.Storage;

namespace Rollwright.Library.Backups;

/// <summary>
/// A whole library as one zip of open formats: manifest.json, tunes.json, tunes.abc (the same texts, for any other program),
/// the licks that people set aside, and a file of JSON for each break. Moving between SQLite and PostgreSQL is a backup from one and a restore into the other.
/// </summary>
public static class Backup
{
    /// <summary>A backup larger than this unpacked is refused.</summary>
    private const long MostBytes = 2_000_000_000;

    private const string SetAside = "set-aside-licks.json";

    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    /// <summary>Writes a backup of one moment; the file appears when it is whole.</summary>
    /// <exception cref="LibraryException">The library or the disk refuses; there is no half file.</exception>
    public static async Task WriteAsync(TuneLibrary library, string file, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(library);
        ArgumentNullException.ThrowIfNull(clock);
        var beside = $"{file}.{Guid.CreateVersion7(clock.GetUtcNow()):N}.part";
        try
        {
            await using (var stream = File.Create(beside))
            await using (var zip = new ZipArchive(stream, ZipArchiveMode.Create))
                await library.Do(context => WriteAll(context, zip, clock));
            File.Move(beside, file, overwrite: true);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new LibraryException(file, fault.Message, "make room, or choose another place", fault);
        }
        finally
        {
            if (File.Exists(beside))
                File.Delete(beside);
        }
    }

    /// <summary>Adds what a backup holds to a library, all or nothing; what is there already (by its id) stays as it is.</summary>
    /// <returns>Tunes and breaks that were added.</returns>
    /// <exception cref="LibraryException">The file is no backup, a newer one, or damaged.</exception>
    public static async Task<(int Tunes, int Breaks)> RestoreAsync(TuneLibrary library, string file)
    {
        ArgumentNullException.ThrowIfNull(library);
        try
        {
            await using var stream = File.OpenRead(file);
            using var zip = new ZipArchive(stream, ZipArchiveMode.Read);
            if (zip.Entries.Sum(entry => entry.Length) > MostBytes)
                throw Wrong("it is larger than any library");
            var manifest = Read<BackupManifest>(zip, "manifest.json");
            if (manifest.Form != BackupManifest.Name)
                throw Wrong("it is no backup of a library");
            if (manifest.Version > BackupManifest.Newest)
                throw Wrong("a newer version of the program made it");
            var tunes = Read<ImmutableArray<KeptTune>>(zip, "tunes.json");
            var breaks = zip
                .Entries.Where(entry => entry.FullName.StartsWith("breaks/", StringComparison.Ordinal))
                .Select(entry => Read<BackupBreak>(zip, entry.FullName))
                .ToList();
            // Backups from before there were any have none.
            var aside = zip.GetEntry(SetAside) is null ? [] : Read<ImmutableArray<SetAsideLickRow>>(zip, SetAside);
            return await library.Change(context => AddAll(context, tunes, breaks, aside));
        }
        catch (Exception fault) when (fault is InvalidDataException or JsonException)
        {
            throw new LibraryException(
                file,
                "it is no backup, or damaged",
                "take another one; nothing was restored",
                fault
            );
        }
        catch (IOException fault)
        {
            throw new LibraryException(file, fault.Message, "see that the file is there and may be read", fault);
        }

        LibraryException Wrong(string what) => new(file, what, "take another file; nothing was restored");
    }

    private static async Task<bool> WriteAll(LibraryContext context, ZipArchive zip, TimeProvider clock)
    {
        // One moment of the library, whoever writes meanwhile.
        await using var moment = await context.Database.BeginTransactionAsync(IsolationLevel.Serializable);
        var tunes = (await context.Tunes.AsNoTracking().OrderBy(row => row.Number).ToListAsync())
            .Select(Mapping.Kept)
            .ToList();
        var breaks = await context.Breaks.AsNoTracking().OrderBy(row => row.Number).ToListAsync();
        Write(
            zip,
            "manifest.json",
            new BackupManifest(BackupManifest.Name, BackupManifest.Newest, clock.GetUtcNow(), tunes.Count, breaks.Count)
        );
        Write(zip, "tunes.json", tunes);
        Write(zip, SetAside, await context.SetAsideLicks.AsNoTracking().OrderBy(row => row.Lick).ToListAsync());
        await using (var abc = new StreamWriter(zip.CreateEntry("tunes.abc").Open(), new UTF8Encoding(false)))
        {
            foreach (var tune in tunes)
                await abc.WriteAsync(tune.Abc.TrimEnd() + "\n\n");
        }
        foreach (var row in breaks)
        {
            var revisions = await context
                .Revisions.AsNoTracking()
                .Where(revision => revision.Break == row.Id)
                .OrderBy(revision => revision.Number)
                .ToListAsync();
            var practice = await context
                .Practice.AsNoTracking()
                .Where(day => day.Break == row.Id)
                .OrderBy(day => day.Day)
                .ThenBy(day => day.Phrase)
                .ToListAsync();
            Write(
                zip,
                $"breaks/{row.Id}.json",
                new BackupBreak(
                    Mapping.Kept(row),
                    [.. revisions.Select(Mapping.Kept)],
                    [.. practice.Select(Mapping.Kept)]
                )
            );
        }
        return true;
    }

    private static async Task<(int, int)> AddAll(
        LibraryContext context,
        ImmutableArray<KeptTune> tunes,
        List<BackupBreak> breaks,
        ImmutableArray<SetAsideLickRow> aside
    )
    {
        var known = await context.SetAsideLicks.AsNoTracking().ToListAsync();
        context.SetAsideLicks.AddRange(aside.ExceptBy(known.Select(Name), Name));
        var knownTunes = (await context.Tunes.Select(row => row.Id).ToListAsync()).ToHashSet();
        var knownBreaks = (await context.Breaks.Select(row => row.Id).ToListAsync()).ToHashSet();
        var newTunes = tunes.Where(tune => knownTunes.Add(tune.Id)).ToList();
        var newBreaks = breaks.Where(kept => knownBreaks.Add(kept.Break.Id)).ToList();
        context.Tunes.AddRange(newTunes.Select(Mapping.Row));
        foreach (var (kept, revisions, practice) in newBreaks)
        {
            context.Breaks.Add(
                new()
                {
                    Id = kept.Id,
                    Tune = kept.Tune,
                    Title = kept.Title,
                    Current = kept.Current,
                    ChangedAt = kept.ChangedAt,
                }
            );
            context.Revisions.AddRange(revisions.Select(revision => Mapping.Row(kept.Id, revision)));
            context.Practice.AddRange(
                practice.Select(day => new PracticeRow
                {
                    Break = kept.Id,
                    Day = day.Day,
                    Phrase = day.Phrase,
                    Tempo = day.Tempo,
                    Clean = day.Clean,
                    Spoiled = day.Spoiled,
                })
            );
        }
        await context.SaveChangesAsync();
        return (newTunes.Count, newBreaks.Count);
    }

    private static (string, string) Name(SetAsideLickRow row) => (row.Who, row.Lick);

    private static void Write<T>(ZipArchive zip, string name, T value)
    {
        using var stream = zip.CreateEntry(name).Open();
        JsonSerializer.Serialize(stream, value, Form);
    }

    // Nothing is unpacked to a file: names within the zip never become paths.
    private static T Read<T>(ZipArchive zip, string name)
    {
        using var stream = (zip.GetEntry(name) ?? throw new InvalidDataException($"{name} is missing")).Open();
        return JsonSerializer.Deserialize<T>(stream, Form) ?? throw new InvalidDataException($"{name} is empty");
    }
}
