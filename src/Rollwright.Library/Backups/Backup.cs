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
/// A whole library as one zip of open formats: manifest.json, tunes.json, tunes.abc (the same texts, for any other program), a file
/// of JSON for each break, the licks that people set aside, licks.json, licks.txt (the same rows, a file of licks), lessons.json, takes.json and the recordings,
/// named by their digest. Of a library that several people share it is everybody's, with whose each thing is in owners.json; of what
/// one of them sees (<see cref="TuneLibrary.For"/>) it is theirs, and restored there it becomes theirs. Moving between SQLite and PostgreSQL is a backup from one and a restore into the other.
/// </summary>
public static class Backup
{
    /// <summary>A backup larger than this unpacked is refused.</summary>
    private const long MostBytes = 2_000_000_000;

    private const string SetAside = "set-aside-licks.json";
    private const string Owners = "owners.json";

    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    /// <summary>Writes a backup of one moment; the file appears when it is whole.</summary>
    /// <exception cref="LibraryException">The library or the disk refuses; there is no half file.</exception>
    /// <param name="library">What is backed up.</param>
    /// <param name="file">The zip.</param>
    /// <param name="clock">Says when.</param>
    /// <param name="more">What else goes into it; null for nothing.</param>
    public static async Task WriteAsync(TuneLibrary library, string file, TimeProvider clock, IBackupPart? more = null)
    {
        ArgumentNullException.ThrowIfNull(library);
        ArgumentNullException.ThrowIfNull(clock);
        var beside = $"{file}.{Guid.CreateVersion7(clock.GetUtcNow()):N}.part";
        try
        {
            await using (var stream = File.Create(beside))
            await using (var zip = new ZipArchive(stream, ZipArchiveMode.Create))
            {
                // First, for it speaks of what the library keeps: all of that is there a moment later.
                if (more is not null)
                    await more.WriteAsync(zip);
                await library.DoWhole(context => WriteAll(library, context, zip, clock));
            }
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
    /// <exception cref="LibraryException">The file is no backup, a newer one, or damaged.</exception>
    /// <param name="library">Where to.</param>
    /// <param name="file">The zip.</param>
    /// <param name="more">Takes what else was put into it; null leaves it.</param>
    public static async Task<Restored> RestoreAsync(TuneLibrary library, string file, IBackupPart? more = null)
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
            var content = new BackupContent(
                Read<ImmutableArray<KeptTune>>(zip, "tunes.json"),
                [
                    .. zip
                        .Entries.Where(entry => entry.FullName.StartsWith("breaks/", StringComparison.Ordinal))
                        .Select(entry => Read<BackupBreak>(zip, entry.FullName)),
                ],
                ReadLater<KeptLick>(zip, "licks.json"),
                ReadLater<KeptLesson>(zip, "lessons.json"),
                ReadLater<KeptTake>(zip, "takes.json"),
                ReadLater<SetAsideLickRow>(zip, SetAside),
                zip.GetEntry(Owners) is null ? [] : Read<Dictionary<Guid, string>>(zip, Owners)
            );
            if (content.Owners.Count > 0 && library is { Owner: "", Place.IsServer: false })
                throw Wrong("it is of several people, and a file is one person's");
            var restored = await library.Change(context => AddAll(library, context, content, zip));
            if (more is not null)
                await more.ReadAsync(zip);
            return restored;
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

    /// <summary>Whether a backup has this folder in it; false for what is none.</summary>
    public static bool HoldsFolder(string file, string folder)
    {
        try
        {
            using var zip = ZipFile.OpenRead(file);
            return zip.Entries.Any(entry => entry.FullName.StartsWith($"{folder}/", StringComparison.Ordinal));
        }
        catch (Exception fault) when (fault is IOException or InvalidDataException or UnauthorizedAccessException)
        {
            // Restoring says what is wrong with it.
            return false;
        }
    }

    private static async Task<bool> WriteAll(
        TuneLibrary library,
        LibraryContext context,
        ZipArchive zip,
        TimeProvider clock
    )
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
        Write(zip, SetAside, await SetAsideOf(library, context));
        if (library.Owner.Length == 0)
            Write(zip, Owners, await OwnersOf(context));
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
        var licks = (await context.Licks.AsNoTracking().OrderBy(row => row.Number).ToListAsync())
            .Select(Mapping.Kept)
            .ToList();
        Write(zip, "licks.json", licks);
        await using (var text = new StreamWriter(zip.CreateEntry("licks.txt").Open(), new UTF8Encoding(false)))
            await text.WriteAsync(KeptLick.FileOf(licks));
        Write(
            zip,
            "lessons.json",
            (await context.Lessons.AsNoTracking().OrderBy(row => row.Number).ToListAsync()).Select(Mapping.Kept)
        );
        var takes = (await context.Takes.AsNoTracking().OrderBy(row => row.Number).ToListAsync())
            .Select(Mapping.Kept)
            .ToList();
        Write(zip, "takes.json", takes);
        foreach (var take in takes.DistinctBy(take => take.Digest))
        {
            var recording = await library.RecordingOf(context, take.Digest);
            await using var stream = zip.CreateEntry(NameOf(take), CompressionLevel.NoCompression).Open();
            await stream.WriteAsync(recording);
        }
        return true;
    }

    private static async Task<Restored> AddAll(
        TuneLibrary library,
        LibraryContext context,
        BackupContent content,
        ZipArchive zip
    )
    {
        var known = await context.SetAsideLicks.AsNoTracking().ToListAsync();
        var aside = content
            .SetAside.Select(row => row with { Who = library.Owner.Length > 0 ? library.Owner : NameOf(row) })
            .DistinctBy(Name);
        context.SetAsideLicks.AddRange(aside.ExceptBy(known.Select(Name), Name));
        // Ids are for ever, whoever's they are; the rows of others are asked for too.
        var newTunes = await New(
            context.Tunes.IgnoreQueryFilters().Select(row => row.Id),
            content.Tunes,
            tune => tune.Id
        );
        var newBreaks = await New(
            context.Breaks.IgnoreQueryFilters().Select(row => row.Id),
            content.Breaks,
            kept => kept.Break.Id
        );
        // By its name: it says what the hands do, and no two licks are called alike.
        var licks = await context.Licks.IgnoreQueryFilters().Select(row => new { row.Owner, row.Name }).ToListAsync();
        var names = licks.Select(row => (row.Owner, row.Name)).ToHashSet();
        var newLicks = content.Licks.Where(lick => names.Add((OwnerOf(lick.Id), lick.Name))).ToList();
        var newLessons = await New(
            context.Lessons.IgnoreQueryFilters().Select(row => row.Id),
            content.Lessons,
            lesson => lesson.Id
        );
        var newTakes = await New(
            context.Takes.IgnoreQueryFilters().Select(row => row.Id),
            content.Takes,
            take => take.Id
        );
        context.Licks.AddRange(newLicks.Select(lick => Theirs(lick.Id, Mapping.Row(lick))));
        context.Lessons.AddRange(newLessons.Select(lesson => Theirs(lesson.Id, Mapping.Row(lesson))));
        foreach (var take in newTakes)
        {
            var recording = Bytes(zip, NameOf(take));
            // What the bytes are, and not what the backup calls them, is the name they are kept under.
            if (KeptTake.DigestOf(recording) != take.Digest)
                throw new InvalidDataException($"{NameOf(take)} is not the recording that was kept");
            await library.Recordings.PutAsync(context, take.Digest, recording);
            context.Takes.Add(Theirs(take.Id, Mapping.Row(take with { Ending = KeptTake.PlainEnding(take.Ending) })));
        }
        context.Tunes.AddRange(newTunes.Select(tune => Theirs(tune.Id, Mapping.Row(tune))));
        foreach (var (kept, revisions, practice) in newBreaks)
        {
            context.Breaks.Add(
                new()
                {
                    Owner = OwnerOf(kept.Id),
                    Id = kept.Id,
                    Tune = kept.Tune,
                    Title = kept.Title,
                    Current = kept.Current,
                    ChangedAt = kept.ChangedAt,
                }
            );
            context.Revisions.AddRange(revisions.Select(revision => Theirs(kept.Id, Mapping.Row(kept.Id, revision))));
            context.Practice.AddRange(
                practice.Select(day => new PracticeRow
                {
                    Owner = OwnerOf(kept.Id),
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
        return new(newTunes.Count, newBreaks.Count, newLicks.Count, newLessons.Count, newTakes.Count);

        // What one person restores is theirs, whosever it was.
        string OwnerOf(Guid id) => library.Owner.Length > 0 ? library.Owner : content.Owners.GetValueOrDefault(id, "");

        T Theirs<T>(Guid id, T row)
            where T : IOwned
        {
            row.Owner = OwnerOf(id);
            return row;
        }
    }

    // Whose is what; what is nobody's in particular is left out.
    private static async Task<Dictionary<Guid, string>> OwnersOf(LibraryContext context)
    {
        var owners = context
            .Tunes.Where(row => row.Owner != "")
            .Select(row => new { row.Id, row.Owner })
            .Concat(context.Breaks.Where(row => row.Owner != "").Select(row => new { row.Id, row.Owner }))
            .Concat(context.Licks.Where(row => row.Owner != "").Select(row => new { row.Id, row.Owner }))
            .Concat(context.Lessons.Where(row => row.Owner != "").Select(row => new { row.Id, row.Owner }))
            .Concat(context.Takes.Where(row => row.Owner != "").Select(row => new { row.Id, row.Owner }));
        return await owners.ToDictionaryAsync(row => row.Id, row => row.Owner);
    }

    // One person's list carries no name: whoever restores it is that person.
    private static async Task<List<SetAsideLickRow>> SetAsideOf(TuneLibrary library, LibraryContext context)
    {
        var rows = await context.SetAsideLicks.AsNoTracking().OrderBy(row => row.Lick).ToListAsync();
        return library.Owner.Length == 0
            ? rows
            : [.. rows.Where(row => row.Who == library.Owner).Select(row => row with { Who = "" })];
    }

    private static string NameOf(SetAsideLickRow row) => row.Who.Length > 0 ? row.Who : Environment.UserName;

    private static (string, string) Name(SetAsideLickRow row) => (row.Who, row.Lick);

    private static async Task<List<T>> New<T, TName>(IQueryable<TName> known, IEnumerable<T> read, Func<T, TName> name)
    {
        var names = (await known.ToListAsync()).ToHashSet();
        return [.. read.Where(one => names.Add(name(one)))];
    }

    private static string NameOf(KeptTake take) => $"takes/{take.Digest}.{take.Ending}";

    private static byte[] Bytes(ZipArchive zip, string name)
    {
        using var stream = (zip.GetEntry(name) ?? throw new InvalidDataException($"{name} is missing")).Open();
        using var memory = new MemoryStream();
        stream.CopyTo(memory);
        return memory.ToArray();
    }

    // Backups of the first version have none of it.
    private static ImmutableArray<T> ReadLater<T>(ZipArchive zip, string name) =>
        zip.GetEntry(name) is null ? [] : Read<ImmutableArray<T>>(zip, name);

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
